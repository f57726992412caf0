/**
 * Puts all that the program loads at every start into one part.
 *
 * esbuild makes a part of the modules that the same entries need, and each `import()` is an entry: with twenty of them what is loaded
 * at the start lay in fifty files, and looking for files took a third of the processor time of a start. What is loaded later has `main`
 * loaded already, so it may as well say that it needs all of it; then all entries need the same modules, and they are one part.
 */

import { dirname, resolve } from 'node:path';

/** @param main absolute path of the module that is loaded at every start; it must not be one that is loaded later */
export function onePart(main) {
  return {
    name: 'one-part',
    setup(build) {
      build.onResolve({ filter: /^\./ }, ({ kind, path, resolveDir }) =>
        kind === 'dynamic-import' && !resolveDir.includes('node_modules')
          ? { path: resolve(resolveDir, path), namespace: 'later' }
          : undefined,
      );
      build.onLoad({ filter: /./, namespace: 'later' }, ({ path }) => ({
        contents: `import ${JSON.stringify(main)};\nexport * from ${JSON.stringify(path)};\n`,
        loader: 'ts',
        resolveDir: dirname(path),
      }));
    },
  };
}
