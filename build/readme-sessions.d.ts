export declare function sessionsIn(text: string): { command: string; shown: string }[];
export declare function demoPractice(): { print(command: string): string; remove(): void };
export declare function withSessionsRun(text: string): string;
