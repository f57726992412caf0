/** Appends five sowings to a log as fast as it can: one of the shells of log-file.test.ts. */

import { appendToLog } from '../../../cli/io/log-file.js';
import { appendRow } from '../../../sim/season/log/append.js';
import { ALL_COLUMNS } from '../../../sim/season/log/rows.js';

const nothing = Object.fromEntries(ALL_COLUMNS.map((column) => [column, '']));
const typed = { ...nothing, date: '2027-01-04', action: 'sow', crop: 'leaf', count: '6' } as Parameters<
  typeof appendRow
>[1];

for (let i = 0; i < 5; i++) {
  await appendToLog(process.argv[2]!, (text) => {
    const appending = appendRow(text, typed, null, ['tray']);
    if (!appending.ok) throw new Error(JSON.stringify(appending));
    return { instead: null, text: appending.value.text, result: null };
  });
}
