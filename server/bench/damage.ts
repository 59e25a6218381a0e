/** What a megabyte of anything costs to read, check and print, beside a good inventory of the same length. */

import { tidy } from '../../grammar/tidy.ts';
import { buildWorkspace, type FileSnapshot, readFile } from '../facts/workspace.ts';
import { checkFile } from '../rules/check.ts';
import { EXTREME } from './damage-extremes.ts';
import { DAMAGED, type Shape, SOUND } from './damage-shapes.ts';
import { cpu, median } from './measure.ts';

/** UTF-16 code units; of plain letters, bytes. */
const MEGABYTE = 2 ** 20;
/** 2026-06-01. */
const TODAY = 20605;

/** ms of CPU for a megabyte. */
interface Cost {
  readonly reading: number;
  readonly checking: number;
  readonly tidying: number;
}

/** What is the same in another round would be known from the round before: each has its seed. */
function costOf({ write }: Shape, length: number, seed: number): Cost {
  const text = write(length, seed);
  const share = text.length / MEGABYTE;
  let file: FileSnapshot;
  return {
    reading: cpu(() => void (file = readFile('trees.wood', text))) / share,
    checking: cpu(() => void checkFile(buildWorkspace([file]), file, TODAY)) / share,
    tidying: cpu(() => void tidy(text)) / share,
  };
}

const allOf = ({ reading, checking }: Cost): number => reading + checking;

/** Enough for the compiler to have seen everything. */
const WARM_UP = 5;
const ROUNDS = 5;

/**
 * ms for a megabyte, and for a megabyte of texts half as long, which is the same where time grows as the text does:
 * one line for each kind of text, or with `each` for all of them.
 */
export function* damageReport(each: boolean): Iterable<string> {
  for (let round = 0; round < WARM_UP; round++) costOf(SOUND, MEGABYTE, round);
  const sound = Array.from({ length: ROUNDS }, (_, round) => costOf(SOUND, MEGABYTE, WARM_UP + round));
  const peer = median(sound.map(allOf));
  const line = ({ shape, own, half }: Measured): string =>
    `    ${shape.name.padEnd(44)} ${allOf(own).toFixed(0).padStart(5)} ms (${own.reading.toFixed(0)} to read)  ${(allOf(own) / peer).toFixed(1)} times a good one; ` +
    `in halves ${allOf(half).toFixed(0)} ms  tidy ${own.tidying.toFixed(0)} ms`;
  yield `  ${SOUND.name.padEnd(46)} ${peer.toFixed(0).padStart(5)} ms`;
  for (const [group, shapes] of [...DAMAGED, ...EXTREME]) {
    const measured = shapes.map(measure);
    const costs = measured.map(({ own }) => allOf(own));
    const worst = measured[costs.indexOf(Math.max(...costs))]!;
    yield `  ${group.padEnd(46)} ${median(costs).toFixed(0).padStart(5)} ms, median of ${shapes.length}; ` +
      `at most ${allOf(worst.own).toFixed(0)} ms (${worst.shape.name}), in halves ${allOf(worst.half).toFixed(0)} ms`;
    if (each) yield* measured.map(line);
  }
}

interface Measured {
  readonly shape: Shape;
  readonly own: Cost;
  readonly half: Cost;
}

function measure(shape: Shape): Measured {
  // For the compiler.
  costOf(shape, MEGABYTE / 2, 0);
  const half = costOf(shape, MEGABYTE / 2, 1);
  return { shape, half, own: costOf(shape, MEGABYTE, 2) };
}
