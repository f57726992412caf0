/** What a function prints with console.log, as the package for completion does, instead of printing it. */
export function heard(speak: () => void): string[] {
  const lines: string[] = [];
  const { log } = console;
  console.log = (line: string) => lines.push(line);
  try {
    speak();
  } finally {
    console.log = log;
  }
  return lines;
}
