/** A result as one JSON document, numbers in full; its keys are those of its type. */

export function jsonText(result: unknown): string {
  return `${JSON.stringify(result, null, 2)}\n`;
}
