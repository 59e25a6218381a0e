/** Work, inspections and observations for a reader who does not know the notation: no codes, one line each. */

import { compassPoint } from '../../grammar/bearing.ts';
import { openFollowUps } from '../assess/evidence.ts';
import { lastCheckBy } from '../assess/nesting.ts';
import { fellsTree, openPrescriptionsOfAnyKind } from '../assess/prescriptions.ts';
import type { Sign } from '../assess/signs.ts';
import { isMoving, type SignStanding } from '../assess/standing.ts';
import { formatDate } from '../base/dates.ts';
import { capital, listed } from '../base/words.ts';
import { UNREAD } from '../facts/placed.ts';
import { stagesLeft } from '../facts/stages.ts';
import type { FollowUp, Prescription, Tree } from '../facts/types.ts';
import { phrase } from '../show/words.ts';
import type { ReportTree } from './data.ts';
import { ENGLISH, type Speech } from './languages/language.ts';
import { isOpenError } from './parts.ts';

const INVESTIGATION: Readonly<Record<FollowUp['kind']['value'], string>> = {
  're-inspection': 'have the tree inspected again',
  'climbing inspection': 'have the tree inspected from a rope',
  tomogram: 'have the stem tested by sonic tomography',
  'resistance drilling': 'have the stem tested by resistance drilling',
  'pull test': 'have a static pull test made',
  probe: 'have the cavity probed',
  'root inspection': 'have the roots uncovered and examined',
  'nest check': 'have a nest check made',
  'bat check': 'have a bat check made',
  [UNREAD]: 'an investigation that could not be read',
};

/** `Reduce the crown, height from 52 ft to 44 ft, about 18 % of the foliage`. */
export function plainWork(prescription: Prescription, tree: Tree, speech: Speech = ENGLISH()): string {
  const { say, figure, listed } = speech;
  const { kind, remove, height, spread, base, dose, shortened } = prescription;
  const isPart = remove.length > 0 && !fellsTree(prescription);
  const change = (what: string, value: Prescription['height']) =>
    value ? [say('changed', { what, from: figure(value.from), to: figure(value.to) })] : [];
  return capital(
    [
      isPart
        ? say('work remove', { parts: listed(remove.map(({ value }) => partName(value, tree, speech))) })
        : say(`work ${kind.value}`),
      ...change(say('height of'), height),
      ...change(say('spread of'), spread),
      ...change(say('crown base of'), base),
      ...shortened.flatMap(one => change(one.part.value, one)),
      ...(dose ? [say('work dose', { value: figure(dose) })] : []),
      ...begun(prescription, tree, speech),
    ].join(', '),
  );
}

/** What earlier stages, or work that was not finished, have taken: it is not taken twice. */
function begun(prescription: Prescription, tree: Tree, { say, figure, listed }: Speech): readonly string[] {
  const done = tree.works.filter(work => work.prescription.value === prescription.id.value);
  if (done.length === 0 || stagesLeft(tree, prescription) === 0) return [];
  const taken = done.flatMap(({ dose }) => (dose ? [figure(dose)] : []));
  return [taken.length < done.length ? say('work begun') : say('work taken', { taken: listed(taken) })];
}

/** `the stem South`. */
function partName(name: string, { parts }: Tree, { say }: Speech): string {
  const part = parts.find(one => one.name.value === name);
  return part ? say(`the ${part.kind}`, { name }) : name;
}

export const plainInvestigation = ({ kind }: FollowUp): string => capital(INVESTIGATION[kind.value]);

/** Letters. */
const ONE_LINE = 80;

/** How what was found compares with its limits. */
export const COMPARED: Readonly<Record<SignStanding, string>> = {
  within: 'within its limits',
  'may exceed': 'may be beyond a limit',
  'not judged': 'could not be judged',
  exceeds: 'beyond a limit',
  moving: 'failing now',
};

/** What a sign looks like: `Cavity on trunk at 1.6 m, facing S, increasing`. */
export function plainSign({ kind: of, defect, name, why, increasing, members, standing }: Sign): string {
  if (!defect) {
    const short = capital(name.replace(/^the /, ''));
    // That it is dead says all.
    if (members.length > 0 || of === 'vigor') return short;
    // Without its sources; where figures follow each other, only how they compare with their limits.
    const told = why.replaceAll(/ \([^()]*\)/g, '');
    const first = told.split('; ')[0]!;
    // One figure may be within its limit where the sign is not.
    const seen = standing === 'within' ? first : first.replace(/, within .*/, '');
    const words = seen === first ? [told, first] : [`${seen}, ${COMPARED[standing]}`];
    return `${short}: ${words.find(one => one.length <= ONE_LINE) ?? COMPARED[standing]}`;
  }
  const { kind, part, height, facing } = defect;
  return capital(
    [
      [kind.value, ...(part ? [`on ${part.value}`] : []), ...phrase(height, value => `at ${value}`)].join(
        ' ',
      ),
      ...(facing === undefined ? [] : [`facing ${compassPoint(facing)}`]),
      ...(increasing ? ['increasing'] : []),
    ].join(', '),
  );
}

/** Protection, permits, nests and bats: what the client has to know whatever is done. */
export function duties(tree: Tree, on: number): readonly string[] {
  const { protection } = tree;
  const permit = protection?.permit;
  const nests = nestsIn(tree, on);
  return [
    ...(protection
      ? [
          `The tree is protected${protection.under ? ` (${protection.under})` : ''}${protection.by ? ` by ${protection.by}` : ''}. ${permit && permit.value !== 'none' ? `Permit ${permit.value} is on record.` : 'No permit for work is on record: it is needed before any work.'}`,
        ]
      : []),
    ...(nests.length > 0
      ? [
          `A nest that is or may be in use was found (${listed(nests.map(({ species }) => species?.name ?? 'kind not known'))}). It must not be disturbed.`,
        ]
      : []),
    ...batsIn(tree, on).map(
      ({ use, day }) =>
        `${BATS[use]} on ${formatDate(day)}. ${use === 'roost' || use === 'maternity roost' ? 'It must not be disturbed: ask' : 'Ask'} a licensed biologist before any work.`,
    ),
  ];
}

/** In a line of the first page. */
export const wildlifeIn = (tree: Tree, on: number): readonly string[] => [
  ...(nestsIn(tree, on).length > 0 ? ['A nest that is or may be in use'] : []),
  ...new Set(batsIn(tree, on).map(({ use }) => BATS[use].replace(/ (?:was|were) found$/, ''))),
];

const nestsIn = (tree: Tree, on: number) =>
  (lastCheckBy(tree, on)?.found ?? []).filter(({ use }) => use === 'active' || use === 'unclear');

/** A roost stays one when the bats are elsewhere. */
const batsIn = ({ batChecks }: Tree, on: number) =>
  batChecks.flatMap(({ date, found }) =>
    date.value > on ? [] : found.flatMap(({ use }) => (use === 'none' ? [] : [{ use, day: date.value }])),
  );

const BATS = {
  signs: 'Signs of bats were found',
  roost: 'A bat roost was found',
  'maternity roost': 'A maternity roost of bats was found',
  unclear: 'A place that may be a bat roost was found',
} as const;

/** Whether nothing is open at a tree that has its chapter all the same. */
export const needsNothing = ({ tree, assessment: { signs }, urgency, findings }: ReportTree): boolean =>
  urgency === 'watch' &&
  signs.every(({ standing }) => standing === 'within') &&
  openPrescriptionsOfAnyKind(tree).length + openFollowUps(tree).length === 0 &&
  !findings.some(isOpenError);

/** What a tree without work or another inspection needs: where something is open, somebody has to decide. */
export function nothingPlanned({ assessment: { signs }, urgency, findings }: ReportTree): string {
  const open = signs.filter(({ standing }) => standing !== 'within');
  if (open.length === 0 && urgency === 'watch')
    return findings.some(isOpenError)
      ? 'Nothing is prescribed, but the check reports an error in the record: it must be resolved first.'
      : 'Nothing beyond the next inspection.';
  if (urgency === 'watch' && !findings.some(isOpenError))
    return 'What was found has been acted on. Nothing is due yet.';
  return open.some(isMoving)
    ? 'Keep people out of its reach now. Nothing is prescribed yet: a qualified person has to decide the same day.'
    : 'Nothing is prescribed yet: a qualified person has to decide.';
}
