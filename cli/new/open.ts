/** Loads ink and what asks with it: a tenth of a second that only those wait for who are asked. */

import { watched } from '../io/watched.js';
import type { Answers } from './answers.js';

type Asking = typeof import('./ask.js');

async function asking(): Promise<Asking> {
  watched();
  return await import('./ask.js');
}

/** See ask.tsx. */
export async function askQuestions(...args: Parameters<Asking['askQuestions']>): Promise<Answers | null> {
  return await (await asking()).askQuestions(...args);
}

/** See ask.tsx. */
export async function askWhether(...args: Parameters<Asking['askWhether']>): Promise<boolean | null> {
  return await (await asking()).askWhether(...args);
}
