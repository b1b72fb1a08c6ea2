import type { CommandCase, FileCase } from './cases.js';

export declare function tryFile(c: FileCase): Promise<string | null>;
export declare function tryCommand(c: CommandCase): string | null;
