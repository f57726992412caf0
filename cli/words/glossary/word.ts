/** A word that is explained. */
export interface Word {
  readonly name: string;
  /** Other ways to say it, as they stand in results and files. */
  readonly also?: readonly string[];
  /** One or two sentences. */
  readonly text: string;
}
