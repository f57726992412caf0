/** Words as a shell reads them, for commands that somebody copies. */

/** A word of a command, in quotes where it needs them. */
export function inShell(word: string): string {
  return /^[\w@%+=:,./-]+$/.test(word) ? word : `'${word.replaceAll("'", "'\\''")}'`;
}
