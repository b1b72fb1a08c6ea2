import type fc from 'fast-check';

export interface FileCase {
  readonly what: 'file';
  readonly kind: string;
  readonly name: string;
  readonly path: string;
  readonly text: string;
}
export interface CommandCase {
  readonly what: 'command';
  readonly args: readonly string[];
}
export declare const fileCase: fc.Arbitrary<FileCase>;
export declare const commandLine: fc.Arbitrary<CommandCase>;
export declare function drawn<T>(arbitrary: fc.Arbitrary<T>, seed: number, count: number): T[];
