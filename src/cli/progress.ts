/** How far long work has come, shown on a terminal's standard error; silent in a pipe and for short work. */
export interface Progress {
  advance(): void;
  finish(): void;
}

const WORTH_SHOWING = 5;

export async function progress(total: number, what: string): Promise<Progress> {
  if (!process.stderr.isTTY || total < WORTH_SHOWING) return { advance: () => {}, finish: () => {} };
  const { default: cliProgress } = await import('cli-progress');
  const bar = new cliProgress.SingleBar({
    format: `[{bar}] {value} of {total} ${what}`,
    barCompleteChar: '#',
    barIncompleteChar: ' ',
    stream: process.stderr,
  });
  bar.start(total, 0);
  return { advance: () => bar.increment(), finish: () => bar.stop() };
}

/** A plain count, for work whose end may not be known; told now and then, for a terminal is slower than the work. */
export function counting(total: number | null, what: string): Progress {
  if (!process.stderr.isTTY) return { advance: () => {}, finish: () => {} };
  let done = 0;
  let told = 0;
  const tell = (): void => {
    process.stderr.write(`\r${done}${total === null ? '' : ` of ${total}`} ${what}`);
  };
  return {
    advance: () => {
      done += 1;
      if (Date.now() - told < EVERY) return;
      told = Date.now();
      tell();
    },
    finish: () => {
      tell();
      process.stderr.write('\n');
    },
  };
}

const EVERY = 200;
