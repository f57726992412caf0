export const ALONE: RegExp;
