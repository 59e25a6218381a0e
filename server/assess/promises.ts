/** What was promised at a tree and not done: work, follow-ups, inspections, readings. */

import type { Settings } from '../facts/settings.ts';
import { stagesLeft, stagesOf } from '../facts/stages.ts';
import type { Site, Tree } from '../facts/types.ts';
import { openFollowUps } from './evidence.ts';
import { nextLookOf, soonerWords } from './next-look.ts';
import { jobName, openPrescriptionsOfAnyKind } from './prescriptions.ts';
import { upkeepOf } from './upkeep.ts';

export interface Promised {
  /** `raise R1`, `re-inspection F1`. */
  readonly what: string;
  /** The last day for it; undefined where none is stated. */
  readonly due: number | undefined;
  /** What is left of it, where some of it was done. */
  readonly left: string | undefined;
}

interface Context {
  readonly tree: Tree;
  readonly site: Site | undefined;
  readonly settings: Settings;
  readonly today: number;
}

/** By their days, without a day last. Nothing is owed to a tree that is gone. */
export function promisesOf(context: Context): readonly Promised[] {
  const { tree } = context;
  if (tree.felled) return [];
  const next = nextLookOf(context);
  const all: readonly Promised[] = [
    ...openPrescriptionsOfAnyKind(tree).map(prescription => {
      const { id, between } = prescription;
      const works = tree.works.filter(work => work.prescription.value === id.value);
      const newest = works.reduce<(typeof works)[number] | undefined>(
        (latest, work) => (latest && latest.date.value > work.date.value ? latest : work),
        undefined,
      );
      const stages = stagesLeft(tree, prescription);
      const staged =
        stages < stagesOf(prescription) ? `${stages} of ${stagesOf(prescription)} stages` : undefined;
      return { what: jobName(prescription), due: between?.to, left: newest?.unfinished?.value ?? staged };
    }),
    ...openFollowUps(tree).map(({ kind, id, due }) => ({
      what: `${kind.value} ${id.value}`,
      due: due?.value,
      left: undefined,
    })),
    ...upkeepOf(context).map(({ what, day }) => ({ what, due: day, left: undefined })),
    ...(next
      ? [
          {
            what: `next inspection${next.sooner ? ` (${soonerWords(next.sooner)})` : ''}`,
            due: next.day,
            left: undefined,
          },
        ]
      : []),
  ];
  return [...all].sort((a, b) => (a.due ?? LAST) - (b.due ?? LAST));
}

const LAST = Number.MAX_SAFE_INTEGER;
