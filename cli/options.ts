/** Values of options, checked like the keys of a scenario: what must not be, what it must be, an example. */

/**
 * @param name of the option
 * @param text as typed; undefined if the option was left out
 * @param example a value that is right
 * @param faults takes a sentence if the value is wrong
 * @returns the number; undefined if left out or wrong
 */
export function wholeNumber(
  name: string,
  text: string | boolean | undefined,
  least: number,
  most: number,
  example: number,
  faults: string[],
): number | undefined {
  if (text === undefined) return undefined;
  const value =
    typeof text === 'string' && /^[+-]?\d+(\.\d+)?([eE]\+?\d+)?$/.test(text) ? Number(text) : Number.NaN;
  if (Number.isInteger(value) && value >= least && value <= most) return value;
  faults.push(
    `${name} must not be ${JSON.stringify(text)}. It must be a whole number from ${least} to ${most}. Example: ${name} ${example}`,
  );
  return undefined;
}
