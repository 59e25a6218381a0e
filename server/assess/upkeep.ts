/** Days that follow from records: of supports in place, and of walls that decay may thin. */

import type { AppointmentKind } from './appointment-kinds.ts';
import { coursesOf } from './courses.ts';
import { decayCourses } from './decay-time.ts';
import { defectName } from './evidence.ts';
import type { SignContext } from './standing.ts';
import { inspectionDue, serviceEnd, supportName, supportsInPlace } from './supports.ts';

export interface UpkeepDay {
  readonly kind: Extract<AppointmentKind, 'support inspection' | 'support ends' | 'wall reading' | 'reading'>;
  /** Stable identifier within its tree: `C1`. */
  readonly subject: string;
  readonly day: number;
  /** `cable C1: inspection`. */
  readonly what: string;
}

/** In the order of the text; past days too, which are overdue. */
export const upkeepOf = (context: SignContext & { readonly today: number }): readonly UpkeepDay[] => {
  const { tree, site, settings, today } = context;
  return [
    ...supportsInPlace(tree).flatMap((support): UpkeepDay[] => {
      const name = supportName(support);
      const subject = support.id.value;
      const due = inspectionDue(support, settings, today);
      const end = serviceEnd(support, settings);
      return [
        ...(due === undefined
          ? []
          : [{ kind: 'support inspection' as const, subject, day: due, what: `${name}: inspection` }]),
        ...(end === undefined
          ? []
          : [
              {
                kind: 'support ends' as const,
                subject,
                day: end,
                what: `${name}: end of its service life, replace it`,
              },
            ]),
      ];
    }),
    ...decayCourses(tree, site, settings).flatMap(({ defect, look }): UpkeepDay[] =>
      Number.isFinite(look)
        ? [
            {
              kind: 'wall reading',
              subject: defect.id.value,
              day: look,
              what: `${defectName(defect)}: read the sound wall again`,
            },
          ]
        : [],
    ),
    ...coursesOf(tree, site, settings).flatMap(({ subject, name, rate, look, limitDays }): UpkeepDay[] =>
      rate && Number.isFinite(limitDays.low)
        ? [{ kind: 'reading', subject, day: look, what: `${name}: read it again` }]
        : [],
    ),
  ];
};
