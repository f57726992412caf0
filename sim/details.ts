/** The types of what the library's results are made of, for programs that name them. */

export type * from './models/plan.js';
