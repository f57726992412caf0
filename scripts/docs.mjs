/** Writes the table of scenario keys into docs/keys.md, from the schema. Run after `npm run build`. */
import { readFile, rename, writeFile } from 'node:fs/promises';
import { keysTable } from './keys-table.mjs';

const page = new URL('../docs/keys.md', import.meta.url);
const part = new URL('../docs/keys.md.part', import.meta.url);
const text = await readFile(page, 'utf8');
await writeFile(
  part,
  text.replace(
    /(<!-- keys:.*? -->\n)[\s\S]*?(<!-- \/keys -->)/,
    (_, open, close) => `${open}${keysTable()}${close}`,
  ),
);
await rename(part, page);
