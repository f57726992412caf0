/** Wrong input or options: what the user can mend. Ends the program with exit code 2 and without a stack. */

/** Its message is whole sentences: what must not be, what it must be, what to do. */
export class Problem extends Error {
  override readonly name = 'Problem';
}
