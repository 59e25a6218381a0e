import { showCount } from '../../assess/days.ts';
import { authority } from '../../assess/judge.ts';
import { formatDate } from '../../base/dates.ts';
import { exact } from '../../base/interval.ts';
import { dayTaken, type NamedPhoto, photosOf } from '../../facts/photos.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import { beyondLimit } from '../limit-report.ts';
import { type Rule, type RuleReport, spanOf } from '../rule.ts';

/** The nearest day on record; today for an undated photograph that was taken later than today. */
function nearestDay({ days }: NamedPhoto, taken: number, today: number): number | undefined {
  if (days.length === 0) return taken > today ? today : undefined;
  return days.reduce((a, b) => (Math.abs(b - taken) < Math.abs(a - taken) ? b : a));
}

function* check({ tree, photos, photoFile, settings, today }: TreeContext): Iterable<RuleReport> {
  if (!photos) return;
  for (const photo of photosOf(tree)) {
    const taken = dayTaken(photoFile(photo.path));
    const day = taken === undefined ? undefined : nearestDay(photo, taken, today);
    if (taken === undefined || day === undefined) continue;
    const judged = beyondLimit(exact(Math.abs(taken - day)), 'photo-date-tolerance', settings);
    if (!judged) continue;
    const apart = showCount(judged.value.low);
    const what =
      photo.days.length === 0
        ? `today, ${formatDate(day)}`
        : `${formatDate(day)}, the ${photo.of === 'defect' ? 'nearest day on which the defect was inspected' : `day of the ${photo.of}`}`;
    yield {
      at: spanOf(photo),
      grade: judged.standing,
      level: 'warning',
      subject: photo.path,
      message: `The photograph ${photo.path} is dated ${formatDate(taken)} in its file, ${apart} ${taken < day ? 'before' : 'after'} ${what}. That ${judged.standing} the limit of ${showCount(judged.setting.value)} (${authority(judged.setting)}).`,
      remedy:
        'List the photograph under the date on which it was taken, or correct the date here. If the camera’s clock was wrong, record that in a note and add an exception.',
    };
  }
}

export const photoDateDisagrees: Rule = {
  name: 'photo-date-disagrees',
  group: 'evidence',
  level: 'warning',
  summary: 'a photograph whose file gives a different date from the record',
  sources: [cite('practice')],
  explanation:
    'Compares the date the camera wrote into the file (Exif, DateTimeOriginal) with the date of the inspection, nest check or work that names the photograph. For a defect, it uses the date it was first recorded and the dates of all inspections. A photograph of the whole tree has no date of its own and must only not be later than today. Differences greater than the limit photo-date-tolerance are reported.\n\nAn old photograph under a new date makes a condition look current when it may be long past. A nest check based on it was not made.',
  limitations:
    'Files without a date, such as drawings and pictures sent through a messaging app. Environments without access to files.',
  appliesTo: ['photos'],
  acceptable: true,
  examples: [
    {
      title: 'Last year’s flight under this year’s check; a camera clock running ahead',
      photos: {
        'photos/482-n.jpg': { takenAt: '2025-05-28T09:40:12' },
        'photos/482-a.jpg': { takenAt: '2026-05-20T16:02:51' },
        'photos/482.jpg': { takenAt: '2027-01-01T00:00:09' },
      },
      text: `tree 482
  photo photos/482.jpg #! warning exceeds
  inspection 2026-05-06 from ground
  defect A cavity
    photo photos/482-a.jpg #! warning exceeds
  nest check 2026-05-30 from drone
    found none
    photo photos/482-n.jpg, from 55 ft #! warning exceeds
`,
    },
    {
      title: 'The same day, the next day in another time zone, an earlier inspection, no date',
      photos: {
        'photos/483-n.jpg': { takenAt: '2026-05-30T09:40:12' },
        'photos/483-s.jpg': { takenAt: '2026-05-31T01:12:40' },
        'photos/483-a.jpg': { takenAt: '2024-05-02T11:30:00' },
        'photos/483-b.jpg': { imageWidth: 4000, imageHeight: 3000 },
      },
      text: `tree 483
  inspection 2024-05-02 from rope
  inspection 2026-05-06 from ground
  defect A cavity
    photo photos/483-a.jpg
    photo photos/483-b.jpg
  nest check 2026-05-30 from drone
    found none
    photo photos/483-n.jpg, from 55 ft
    photo photos/483-s.jpg, from 55 ft
`,
    },
  ],
  check,
};
