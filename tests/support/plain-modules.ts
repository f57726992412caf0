/**
 * Hands the simulator to the tests as plain modules. Vitest makes each use of something imported a look-up, and a season then takes
 * half as long again.
 */

import { mkdtempSync, rmSync } from 'node:fs';
import { dirname, join, relative, resolve } from 'node:path';
import { buildSync } from 'esbuild';
import type { Plugin } from 'vitest/config';

/** @param root folder of the package */
export function plainModules(root: string): Plugin {
  // Where Node finds the packages that the simulator imports.
  const folder = mkdtempSync(join(root, 'node_modules', '.evensow-'));
  process.on('exit', () => rmSync(folder, { recursive: true }));
  buildSync({
    entryPoints: [join(root, 'sim/**/*.ts')],
    outdir: join(folder, 'sim'),
    format: 'esm',
    target: 'node20',
    sourcemap: 'inline',
  });
  return {
    name: 'plain-modules',
    enforce: 'pre',
    resolveId(source, importer) {
      if (importer === undefined || !source.startsWith('.')) return null;
      const path = relative(root, resolve(dirname(importer), source));
      return path.startsWith('sim/') && path.endsWith('.js')
        ? { id: join(folder, path), external: true }
        : null;
    },
  };
}
