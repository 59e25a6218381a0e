import { areAbout } from '../../assess/causes.ts';
import { doseLimitsOf, isDead } from '../../assess/doses.ts';
import { defectName, openDefects } from '../../assess/evidence.ts';
import { openPrescriptions } from '../../assess/jobs.ts';
import { showLimit, strictest } from '../../assess/judge.ts';
import { offsetOf } from '../../assess/load.ts';
import { jobName } from '../../assess/prescriptions.ts';
import { currentRisks, ratingToActOn } from '../../assess/risks.ts';
import { LOAD_CAUTION } from '../../assess/section-words.ts';
import { type Sign, signsOf } from '../../assess/signs.ts';
import { type Strength, strengthOf } from '../../assess/strength.ts';
import { lossText, shareText } from '../../base/figures.ts';
import { exact, hull } from '../../base/interval.ts';
import { capital, listed } from '../../base/words.ts';
import type { Settings } from '../../facts/settings.ts';
import type { Defect, Prescription, Site, Tree } from '../../facts/types.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import type { Level, Rule, RuleReport } from '../rule.ts';

const REMOVES: ReadonlySet<Prescription['kind']['value']> = new Set(['fell', 'monolith']);
const GRAVE: ReadonlySet<string> = new Set(['high', 'extreme']);

/** The defects that a removal of the whole tree is for; empty for other prescriptions. */
function removedFor(tree: Tree, { kind, remove, for: named }: Prescription): readonly Defect[] {
  if (!REMOVES.has(kind.value) || remove.length > 0) return [];
  const open = openDefects(tree);
  return named.length === 0 ? open : open.filter(defect => areAbout(named, defect));
}

/** Whether the figures cover every sign: they do not where one is moving, increasing or not judged. */
const knowsAll = (signs: readonly Sign[]): boolean =>
  signs.every(
    ({ kind, standing, increasing }) =>
      !increasing &&
      (standing === 'within' || ((kind === 'cavity' || kind === 'decay') && standing !== 'not judged')),
  );

interface MilderOption {
  readonly words: string;
  readonly level: Level;
  readonly remedy: string;
}

function milderOption(
  tree: Tree,
  signs: readonly Sign[],
  strength: Strength,
  site: Site | undefined,
  settings: Settings,
): MilderOption | undefined {
  if (signs.every(({ standing }) => standing === 'within'))
    return {
      words:
        'every recorded sign was judged and is within its limits, so the record alone does not call for removal',
      level: 'warning',
      remedy: 'Monitor the tree with an interval, or state in for and because what else the removal is for.',
    };
  const offset = offsetOf(tree, strength, site, settings);
  if (!offset || offset.reach === 'out of reach' || offset.reach === 'perhaps out of reach') return undefined;
  const { high: seasons } = offset.seasons;
  if (!Number.isFinite(seasons)) return undefined;
  const off = shareText(exact(offset.reduction));
  const dose = lossText(hull(offset.atBest.dose, offset.dose));
  const setting = settings.limit(strictest(doseLimitsOf(tree, 'reduce'), settings));
  const time =
    seasons === 1
      ? `within ${showLimit({ setting })} for one season`
      : `in ${seasons} seasons, each within ${showLimit({ setting })}`;
  return {
    words: `a crown reduction is an option: ${off} off crown length and spread (live foliage removed: ${dose}) offsets the worst-case loss ${time}`,
    level: seasons === 1 ? 'warning' : 'note',
    remedy:
      'Consider the reduction (soundwood weigh), or state in for and because what else the removal is for.',
  };
}

function* check(context: TreeContext): Iterable<RuleReport> {
  const { tree, site, settings } = context;
  if (tree.defects.length === 0) return;
  const signs = signsOf(context);
  if (
    isDead(tree) ||
    !knowsAll(signs) ||
    currentRisks(tree).some(risk => GRAVE.has(ratingToActOn(risk) ?? ''))
  )
    return;
  for (const prescription of openPrescriptions(tree)) {
    const defects = removedFor(tree, prescription);
    if (defects.length === 0) continue;
    const strength = strengthOf(tree, settings);
    const measured = new Set(strength.defects.map(({ hollow }) => hollow.defect.id.value));
    if (!defects.every(({ id }) => measured.has(id.value))) continue;
    const open = milderOption(tree, signs, strength, site, settings);
    if (!open) continue;
    const isNamed = prescription.for.length > 0;
    yield {
      at: prescription.at,
      grade: 'stated',
      level: isNamed ? open.level : 'note',
      subject: prescription.id.value,
      message: `${capital(jobName(prescription))} removes the tree ${isNamed ? 'for' : 'with'} ${listed(defects.map(defectName))}. By the figures, ${open.words}.`,
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
  summary: 'a removal prescribed for decay where the figures would still allow monitoring or reduction',
  sources: [cite('bmp-risk-2017'), cite('practice')],
  explanation:
    'Checks open prescriptions that fell the whole tree or leave a habitat snag, together with the defects they are for (without for, all active defects). Every one of those defects must be a cavity or decay with a measured cross-section. The rule reports the alternative in two cases: every sign of the tree was judged and is within its limits, or a reduction would offset the loss within the doses of one or more seasons. A removal cannot be undone, and the record should show why nothing less would do.\n\nIt is a note where the reduction would take several seasons, and where the prescription does not state what it is for.',
  limitations:
    'Removals for anything other than measured cavities and decay. Trees with anything on record that these figures do not cover. Examples are a dead tree, a moving or increasing sign, a sign that could not be judged, a root or butt fungus, or a risk rated high or extreme.',
  appliesTo: ['defects'],
  acceptable: true,
  caution: LOAD_CAUTION,
  examples: [
    {
      title: 'A sound wall of 6 in; a loss that a reduction offsets; no reason given',
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
