/** What stands for so long that it must be gone: it failed or died, unseen or without a row. */

/** Where fewer than so many of such plants would still grow, a plant is taken to be gone. */
export const HARDLY = 0.01;
