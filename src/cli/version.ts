/** The program's own version, set by the build. */
declare const VERSION: string;

export const version = (): string => (typeof VERSION === 'string' ? VERSION : 'source');
