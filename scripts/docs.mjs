/** Writes the table of scenario keys into the README, from the schema. Run after `npm run build`. */
import { readFile, rename, writeFile } from 'node:fs/promises';
import { keysTable } from './keys-table.mjs';

const readme = new URL('../README.md', import.meta.url);
const text = await readFile(readme, 'utf8');
const part = new URL('../README.md.part', import.meta.url);
await writeFile(
  part,
  text.replace(
    /(<!-- keys:.*? -->\n)[\s\S]*?(<!-- \/keys -->)/,
    (_, open, close) => `${open}${keysTable()}${close}`,
  ),
);
await rename(part, readme);
