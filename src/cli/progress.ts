/** A plain progress bar on a terminal's standard error; silent in a pipe and for short work. */
export interface Progress {
  advance(): void;
  finish(): void;
}

const WIDTH = 30;
const WORTH_SHOWING = 5;

export function progress(total: number, what: string, stream: NodeJS.WriteStream = process.stderr): Progress {
  if (!stream.isTTY || total < WORTH_SHOWING) return { advance: () => {}, finish: () => {} };
  let done = 0;
  const draw = (): void => {
    const full = Math.floor((done / total) * WIDTH);
    stream.write(`\r[${'#'.repeat(full)}${' '.repeat(WIDTH - full)}] ${done} of ${total} ${what}`);
  };
  draw();
  return {
    advance: () => {
      done += 1;
      draw();
    },
    finish: () => {
      stream.write('\n');
    },
  };
}
