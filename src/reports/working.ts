import { type Figure, type WorkingLine, workingOf } from '../measure/figure.ts';
import { cite } from './cite.ts';
import { type Block, type Item, words } from './sheet.ts';

/**
 * How the figures came about, one numbered line a step, what is used before what uses it:
 * `[5] herb in a dose: 12 g [2] x 150 mL [4] / 500 mL [7] = 3.6 g`, with the source of a published figure below.
 */
export function workingBlocks(figures: Iterable<Figure>): Block[] {
  const items = workingOf(figures).map(itemFor);
  return items.length === 0 ? [] : [{ kind: 'section', title: 'Working', blocks: [{ kind: 'list', items }] }];
}

// These lines are the end of the trail: the numbers in them are written out of the figures themselves.
function itemFor(line: WorkingLine): Item {
  const sum = line.sum === undefined ? line.result : `${line.sum} = ${line.result}`;
  const under = line.source === undefined ? [] : [words(cite(line.source))];
  return { mark: `[${line.number}]`, line: words(`${line.says}: ${sum}`), under };
}
