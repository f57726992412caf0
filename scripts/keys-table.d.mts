/** @returns Markdown */
export function keysTable(): string;
