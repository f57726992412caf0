/**
 * What the fonts of the Linux console lack. Lat15-Fixed16, Lat15-Terminus16, Uni2-Fixed16 and Uni2-Terminus16 of Debian's
 * console-setup-linux 1.221 were asked by hand, by the tables of their own that say which character has which picture.
 */

/** Of the signs that the dashboard has elsewhere. */
export const LACKING = /[►◄◆◇○▁▂▃▄▅▆▇▔▏▓]/u;

/** Signs beyond ASCII that all four have, of those that the dashboard uses. */
export const CONSOLE_SIGNS = '●×■▲·┊┄╋↑─›▶◀━┿→│║┼┬…░▒█╭╰';
