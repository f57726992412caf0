/** Rows as CSV (RFC 4180): lines end with CRLF; a field that holds a comma, a quote or a line break is quoted. */

export function csvRows(rows: readonly (readonly (string | number | null)[])[]): string {
  return rows.map((row) => `${row.map(field).join(',')}\r\n`).join('');
}

function field(value: string | number | null): string {
  if (value === null) return '';
  const text = String(value);
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
