/** Wrong input or options: what the user can mend. Ends the program with exit code 2 and without a stack. */

export class Problem extends Error {
  /** @param message whole sentences: what must not be, what it must be, what to do */
  constructor(message: string) {
    super(message);
    this.name = 'Problem';
  }
}
