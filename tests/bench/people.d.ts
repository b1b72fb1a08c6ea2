export declare function people(rows: number, seed?: number): Generator<string>;
