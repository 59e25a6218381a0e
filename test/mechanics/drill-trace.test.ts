import { describe, expect, it } from 'vitest';
import { evaluateTrace, readTrace } from '../../server/mechanics/drill-trace.ts';

const rows = (split = ';', comma = false) =>
  Array.from({ length: 301 }, (_, i) => {
    const amplitude = i < 10 ? 2 : i >= 100 && i < 104 ? 1 : i >= 200 ? 3 : 40;
    const depth = `${i}${comma ? ',0' : '.0'}`;
    return `${depth}${split}${amplitude}`;
  }).join('\n');

function pointsOf(text: string) {
  const trace = readTrace(text);
  if ('damaged' in trace) throw new Error(trace.damaged);
  return trace.points;
}

describe('a drill trace', () => {
  it('is read with any of the usual headings, splits and decimals', () => {
    const one = pointsOf(`Drill 4411\nBohrung 3\ndepth (mm);amplitude (%)\n${rows()}`);
    expect(one.length).toBe(301);
    expect(one.at(-1)!.depth).toBeCloseTo(0.3, 12);
    expect(pointsOf(`"Depth [mm]","Amplitude [%]"\r\n${rows(',').replaceAll('\n', '\r\n')}`)).toEqual(one);
    expect(pointsOf(`DEPTH mm\tDrill resistance\n${rows('\t', true)}`)).toEqual(one);
    expect(pointsOf(`amplitude;depth (cm)\n${rows().replace(/(.*);(.*)/g, '$2;$1')}`)[1]!.depth).toBeCloseTo(
      0.01,
      12,
    );
  });

  it.each([
    ['hello', 'no heading'],
    [`depth;amplitude\n${rows()}`, 'unit of depth'],
    [`depth (mm);amplitude\n1;2\n2;x\n`, 'line 3'],
    [`depth (mm);amplitude\n2;2\n1;2\n`, 'goes back'],
    [`depth (mm);amplitude\n1;2\n`, 'fewer than'],
  ])('is damaged: %#', (text, why) => {
    const trace = readTrace(text);
    expect('damaged' in trace && trace.damaged).toContain(why);
  });

  it('tells wall, crack and decay, give or take its error', () => {
    const reading = evaluateTrace(pointsOf(`depth (mm);amplitude (%)\n${rows()}`), 0.2, 0.01)!;
    expect(reading.entry).toBeCloseTo(0.01, 2);
    expect(reading.decay.length).toBe(1);
    expect(reading.decay[0]!.from).toBeCloseTo(0.2, 2);
    expect(reading.gaps.length).toBe(1);
    expect(reading.wall.low).toBeCloseTo(0.19 - 0.01, 2);
    expect(reading.wall.high).toBeCloseTo(0.19 + 0.01, 2);
  });

  it('finds no less decay with a higher threshold, and the same in any unit of amplitude', () => {
    const points = pointsOf(`depth (mm);amplitude (%)\n${rows()}`);
    const scaled = points.map(({ depth, amplitude }) => ({ depth, amplitude: 7 * amplitude }));
    let last = Number.POSITIVE_INFINITY;
    for (const threshold of [0.01, 0.05, 0.1, 0.2, 0.5]) {
      const wall = evaluateTrace(points, threshold, 0)!.wall.low;
      expect(wall).toBeLessThanOrEqual(last + 0.012);
      expect(evaluateTrace(scaled, threshold, 0)!.wall).toEqual(evaluateTrace(points, threshold, 0)!.wall);
      last = wall;
    }
  });
});
