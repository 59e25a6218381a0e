/** A removal for hollows, where the figures of those hollows leave something milder open. */

import { areAbout } from '../../assess/causes.ts';
import { listed } from '../../assess/counted.ts';
import { doseLimitsOf, isDead } from '../../assess/doses.ts';
import { defectName, openDefects } from '../../assess/evidence.ts';
import { openPrescriptions } from '../../assess/jobs.ts';
import { judge, showInterval, showLimit, showNumber, showValue, strictest } from '../../assess/judge.ts';
import { offsetOf } from '../../assess/load.ts';
import { capital, jobName } from '../../assess/prescriptions.ts';
import { currentRisks, ratingToActOn } from '../../assess/risks.ts';
import { LOAD_CAUTION } from '../../assess/section-words.ts';
import { lossAt, type Strength, strengthOf } from '../../assess/strength.ts';
import type { Settings } from '../../facts/settings.ts';
import type { Defect, Prescription, Site, Tree } from '../../facts/types.ts';
import { hull, type Interval } from '../../mechanics/interval.ts';
import { cite, type LimitName } from '../../practice/index.ts';
import type { TreeContext } from '../context.ts';
import type { Level, Report, Rule } from '../rule.ts';

const SHARE = { unit: '%' };
const REMOVES: ReadonlySet<string> = new Set(['fell', 'monolith']);
const GRAVE: ReadonlySet<string> = new Set(['high', 'extreme']);

/** The whole tree, as it stands, for these defects; none where anything else may call for it. */
function removedFor(tree: Tree, { kind, remove, for: named }: Prescription): readonly Defect[] {
  if (!REMOVES.has(kind.value) || remove.length > 0) return [];
  const open = openDefects(tree);
  return named.length === 0 ? open : open.filter(defect => areAbout(named, defect));
}

/** The figures speak of hollow sections only: of a moving root plate or a rated risk they know nothing. */
const speaksOtherwise = (tree: Tree): boolean =>
  isDead(tree) ||
  tree.soil?.value === 'heaving' ||
  tree.soil?.value === 'cracked' ||
  tree.lean?.course === 'new' ||
  tree.lean?.course === 'increasing' ||
  tree.parts.some(({ union }) => union?.value === 'cracked') ||
  currentRisks(tree).some(risk => GRAVE.has(ratingToActOn(risk) ?? ''));

/** Whether no rule of thumb speaks against a section either: what one of them finds too thin is not called open. */
function keepsAllRules({ defects }: Strength, settings: Settings): boolean {
  const keeps = (value: Interval, limit: LimitName) => judge(value, limit, settings).standing === 'within';
  return defects.every(({ hollow: { thumbs } }) => {
    const { cubic, withOpening, wallRatio } = thumbs;
    return (
      keeps(cubic.value, 'strength-loss') &&
      keeps(withOpening.value, 'strength-loss') &&
      (!wallRatio.applies || keeps(wallRatio.value, 'wall-ratio'))
    );
  });
}

interface Open {
  readonly words: string;
  readonly level: Level;
  readonly remedy: string;
}

function whatIsOpen(
  tree: Tree,
  strength: Strength,
  site: Site | undefined,
  settings: Settings,
): Open | undefined {
  const losses = strength.defects.map(defect => lossAt(defect, strength));
  const worst = {
    low: Math.max(...losses.map(({ low }) => low)),
    high: Math.max(...losses.map(({ high }) => high)),
  };
  const judged = judge(worst, 'strength-loss', settings);
  if (judged.standing === 'within') {
    if (!keepsAllRules(strength, settings)) return undefined;
    return {
      words: `the section there has lost ${showValue(judged)} of the bending strength, which keeps within ${showLimit(judged)}: leaving and watching it is open`,
      level: 'warning',
      remedy: 'Watch it with an interval, or say with for and because what else the removal is for.',
    };
  }
  const offset = offsetOf(tree, strength, site, settings);
  if (!offset || offset.reach === 'out of reach' || offset.reach === 'perhaps out of reach') return undefined;
  const { high: seasons } = offset.seasons;
  if (!Number.isFinite(seasons)) return undefined;
  const off = showNumber(Math.ceil(offset.reduction * 1000) / 1000, SHARE, 1);
  const dose = showInterval(hull(offset.atBest.dose, offset.dose), SHARE, 1);
  const setting = settings.limit(strictest(doseLimitsOf(tree), settings));
  const time =
    seasons === 1
      ? `within ${showLimit({ setting })} for one season`
      : `in ${seasons} seasons, each within ${showLimit({ setting })}`;
  return {
    words: `${off} off crown length and spread, ${dose} of the foliage, offsets the worst loss that the readings allow ${time}: a reduction is open`,
    level: seasons === 1 ? 'warning' : 'note',
    remedy:
      'Weigh the reduction (soundwood weigh), or say with for and because what else the removal is for.',
  };
}

function* check({ tree, site, settings }: TreeContext): Iterable<Report> {
  if (tree.defects.length === 0) return;
  for (const prescription of openPrescriptions(tree)) {
    const defects = removedFor(tree, prescription);
    if (defects.length === 0 || speaksOtherwise(tree)) continue;
    const strength = strengthOf(tree, settings);
    const measured = new Set(strength.defects.map(({ hollow }) => hollow.defect.id.value));
    if (!defects.every(({ id }) => measured.has(id.value))) continue;
    const open = whatIsOpen(tree, strength, site, settings);
    if (!open) continue;
    const isNamed = prescription.for.length > 0;
    yield {
      at: prescription.at,
      grade: 'stated',
      level: isNamed ? open.level : 'note',
      subject: prescription.id.value,
      message: `${capital(jobName(prescription))} removes the tree ${isNamed ? 'for' : 'with'} ${listed(defects.map(defectName))}, and by the figures ${open.words}.`,
      remedy: open.remedy,
      related: defects.map(({ at, ...defect }) => ({
        ...at,
        message: capital(defectName({ at, ...defect })),
      })),
    };
  }
}

export const removalNotCalledFor: Rule = {
  name: 'removal-not-called-for',
  group: 'felling',
  level: 'warning',
  summary: 'a removal for hollows whose figures leave watching or a reduction open',
  sources: [cite('bmp-risk-2017'), cite('practice')],
  explanation: `Looks at open prescriptions that fell the whole tree or leave a standing stem, and at the defects that they are for (without for: all that are open). Where every one of them is a hollow of which the section was read, and the worst loss that the readings allow keeps within the limit strength-loss, with no rule of thumb against it, or a reduction offsets it within the doses of one season or of several, it says what is open. A removal cannot be taken back, and the record should show why nothing milder would do.

It is a note where the reduction takes several seasons, and where the prescription does not say what it is for.`,
  whenNot:
    'Removals for anything else than hollows that were read; dead trees, moving soil, a new or increasing lean, a cracked union, and risks rated high or extreme, of which these figures know nothing.',
  looksAt: ['defects'],
  acceptable: true,
  caution: LOAD_CAUTION,
  examples: [
    {
      title: 'A sound wall of 6 in; a loss that a reduction offsets; nothing said of what for',
      text: `tree 141
  inspection 2026-05-04 from rope
  defect A decay
    on trunk at 4 ft
    diameter 30 in
    wall 6 in
  prescription R1 fell #! stated
    for A

tree 142
  height 60 ft
  crown from 15 ft, 40 ft wide
  age young
  inspection 2026-05-04 from rope
  defect A decay
    on trunk at 4 ft
    diameter 30 in
    wall 3.4 in
  prescription R1 fell #! note stated
    for A

tree 143
  inspection 2026-05-04 from rope
  defect A decay
    on trunk at 4 ft
    diameter 30 in
    wall 6 in
  prescription R1 monolith #! note stated
`,
    },
    {
      title:
        'Beyond pruning, a wall that a rule of thumb finds thin, not read, for something else, rated high',
      text: `tree 144
  height 60 ft
  crown from 15 ft, 40 ft wide
  inspection 2026-05-04 from rope
  defect A decay
    on trunk at 4 ft
    diameter 30 in
    wall 1 in
  prescription R1 fell
    for A

tree 150
  inspection 2026-05-04 from rope
  defect A decay
    on trunk at 4 ft
    diameter 30 in
    opening closed
    wall 3.9 in
  prescription R1 fell
    for A

tree 145
  inspection 2026-05-04 from rope
  defect A decay
    on trunk at 4 ft
    diameter 30 in
    wall 2..6 in
  prescription R1 fell
    for A

tree 146
  inspection 2026-05-04 from rope
  defect A decay
    on trunk at 4 ft
    diameter 30 in
    wall 6 in
  defect B root decay
    share 40 % of roots
  prescription R1 fell
    for A, B

tree 147
  inspection 2026-05-04 from rope
  defect A decay
    on trunk at 4 ft
    diameter 30 in
    wall 6 in
  target "Path"
  risk "Path" from A
    rating high
  prescription R1 fell
    for A
`,
    },
  ],
  check,
};
