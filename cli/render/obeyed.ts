/**
 * Characters that a terminal obeys instead of showing them: controls (also those of U+0080 to U+009F, of which one begins a
 * sequence as ESC does), line and paragraph separators, and those that turn the direction of what follows. They come in names,
 * notes and file names; of the program's own there are line ends only, and what the dashboard draws with.
 */

// biome-ignore lint/suspicious/noControlCharactersInRegex: those are what must not reach the terminal
const OBEYED = /[\u0000-\u001f\u007f-\u009f\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069]/g;

/** What stands for such a character: it takes one column, as it is reckoned with. */
const SHOWN = '\ufffd';

export function isObeyed(sign: string): boolean {
  return sign.search(OBEYED) === 0;
}

/** A text in one line without such characters. @param instead stands for each */
export function inOneLine(text: string, instead = SHOWN): string {
  return text.replace(OBEYED, instead);
}

/**
 * A text that is to stay one line of many, as it has names in it that may have line ends: all else that a terminal obeys is taken out when
 * the lines are written (`print`, `tell`, `writeResult`).
 */
export function unbroken(text: string): string {
  return text.replace(/[\r\n]/g, SHOWN);
}

/** A text of the program's own lines without such characters. */
export function plainLines(text: string): string {
  return text.replace(/[^\r\n]+|\r(?!\n)/g, (line) => inOneLine(line));
}

/** JSON that says the same without them. Outside its texts it has none but line ends. */
export function plainJson(json: string): string {
  return json.replace(OBEYED, (sign) =>
    sign === '\n' ? sign : `\\u${sign.charCodeAt(0).toString(16).padStart(4, '0')}`,
  );
}
