/** What the drill traces of a tree say, as far as their files could be read. */

import { exact, type Interval, interval } from '../base/interval.ts';
import { valuesOf } from '../facts/interval.ts';
import { type NamedTrace, type PhotoFile, tracesOf } from '../facts/photos.ts';
import type { Settings } from '../facts/settings.ts';
import type { Defect, Tree } from '../facts/types.ts';
import { evaluateTrace, type TracePoint, type TraceReading } from '../mechanics/drill-trace.ts';

export interface ReadTrace extends NamedTrace {
  readonly defect: Defect | undefined;
  readonly points: readonly TracePoint[];
  readonly reading: TraceReading;
  /** Share of the amplitude of sound wood, and whether the record states it. */
  readonly threshold: number;
  readonly isThresholdStated: boolean;
}

/** How far a reading of this drilling may be off, m. */
function drillingError({ error }: NamedTrace['drilling'], settings: Settings): Interval {
  return error ? valuesOf(error.value, settings) : exact(settings.limit('drilling-error').value);
}

/** Traces of which a file was read that holds one; those of a trace that met no wood are left out. */
export const readTraces = (
  tree: Tree,
  fileOf: (path: string) => PhotoFile | undefined,
  settings: Settings,
): readonly ReadTrace[] =>
  tracesOf(tree).flatMap((named): ReadTrace[] => {
    const { drilling, trace } = named;
    const file = fileOf(trace.path);
    if (file?.state !== 'read' || !file.trace || 'damaged' in file.trace) return [];
    const { points } = file.trace;
    const stated = trace.threshold && valuesOf(trace.threshold.value, settings);
    // Of a range the higher: it finds more decay.
    const threshold = Math.min(1, stated?.high ?? settings.limit('trace-threshold').value);
    const reading = evaluateTrace(points, threshold, drillingError(drilling, settings).high);
    if (!reading) return [];
    const defect = tree.defects.find(({ id }) => id.value === drilling.defect.value);
    return [{ ...named, defect, points, reading, threshold, isThresholdStated: stated !== undefined }];
  });

/** The wall that the record of the drilling states at the bearing of a trace, with its error. */
export function recordedWall({ drilling, trace }: NamedTrace, settings: Settings): Interval | undefined {
  const wall = drilling.walls.find(({ bearing }) => bearing === trace.bearing);
  if (!wall || wall.thickness.value.form === 'unseen') return undefined;
  const { low, high } = valuesOf(wall.thickness.value, settings);
  const error = drillingError(drilling, settings).high;
  return interval(Math.max(0, low - error), high + error);
}
