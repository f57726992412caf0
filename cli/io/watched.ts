/** ink shows only the last frame where it believes to be watched by nobody, as in a build: whoever is asked or shown something watches it. */

/** Called before ink is loaded: it looks once. */
export function watched(): void {
  for (const name of ['CI', 'CONTINUOUS_INTEGRATION']) delete process.env[name];
}
