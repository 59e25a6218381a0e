/** Work, inspections and observations for a reader who does not know the notation: no codes, one line each. */

import { compassPoint } from '../../grammar/bearing.ts';
import { isAnsweredOrLate, unansweredRatings } from '../assess/answering.ts';
import { isLook, lastLook, missedStorm, openFollowUps } from '../assess/evidence.ts';
import { lastCheckBy } from '../assess/nesting.ts';
import { nextLookOf, readingsOverdue } from '../assess/next-look.ts';
import { permitFor } from '../assess/permits.ts';
import { fellsTree, jobName, lastWorkUnder, openPrescriptionsOfAnyKind } from '../assess/prescriptions.ts';
import { targetsInReach } from '../assess/reach.ts';
import { ratingToActOn, riskName } from '../assess/risks.ts';
import type { Sign } from '../assess/signs.ts';
import { isMoving, type SignStanding } from '../assess/standing.ts';
import { inspectionDue, serviceEnd, supportName, supportsInPlace } from '../assess/supports.ts';
import { SEASON } from '../assess/urgency.ts';
import { formatDate } from '../base/dates.ts';
import { capital, listed, quoted } from '../base/words.ts';
import { UNREAD } from '../facts/placed.ts';
import { stagesLeft } from '../facts/stages.ts';
import type { FollowUp, Prescription, Target, Tree } from '../facts/types.ts';
import type { Finding } from '../rules/check.ts';
import { readInRegion } from '../show/in-region.ts';
import { longDate } from '../show/long-date.ts';
import { phrase, quantityText } from '../show/words.ts';
import type { ReportData, ReportTree } from './data.ts';
import { ENGLISH, type Speech } from './languages/language.ts';
import { isOpenError, unreadLines } from './parts.ts';
import { personWords, unseenWords } from './words.ts';

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
    // The limit that is kept would hide the one that is not.
    const words =
      standing === 'within' || !/\bwithin\b/.test(told)
        ? [told, first]
        : [`${first.replace(/,? within .*/, '')}, ${COMPARED[standing]}`];
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
  const nests = nestsIn(tree, on);
  return [
    ...(protection
      ? [
          `The tree is protected${protection.under ? ` (${protection.under})` : ''}${protection.by ? ` by ${protection.by}` : ''}. ${permitWords(tree, on)}`,
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

/** The permit of the tree and those of its open work. */
function permitWords(tree: Tree, on: number): string {
  const { permit: number, until, scope } = tree.protection!;
  const all = [
    ...(number ? [{ number, until, scope }] : []),
    ...openPrescriptionsOfAnyKind(tree).flatMap(one => permitFor(tree, one) ?? []),
  ].filter(one => one.number.value !== 'none');
  if (all.length === 0) return 'No permit for work is on record: it is needed before any work.';
  return [...new Map(all.map(one => [one.number.value, one])).values()]
    .map(one => {
      const what = `Permit ${one.number.value}${one.scope ? ` for ${one.scope}` : ''}`;
      if (one.until === undefined) return `${what} is on record, without its last day.`;
      return one.until < on
        ? `${what} ended on ${formatDate(one.until)}: a valid one is needed before any work.`
        : `${what} is on record, until ${formatDate(one.until)}.`;
    })
    .join(' ');
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

/** Whether the next inspection of the tree is overdue; undefined where none is. */
export function lookOverdue({ tree, site, settings }: ReportTree, on: number): number | undefined {
  const next = nextLookOf({ tree, site, settings, today: on });
  return next && next.day < on ? next.day : undefined;
}

/** What is due at a tree without being prescribed: its next inspection, and the care of what holds it. */
export function upkeep(
  entry: ReportTree,
  on: number,
): readonly { readonly what: string; readonly due: number }[] {
  const { tree, site, settings } = entry;
  const late = lookOverdue(entry, on);
  const isPlanned = openFollowUps(tree).some(one => isLook(one) && one.due && one.due.value < on);
  return [
    ...(late === undefined || isPlanned
      ? []
      : [{ what: capital(INVESTIGATION['re-inspection']), due: late }]),
    ...readingsOverdue({ tree, site, settings, today: on }).map(({ name, halfway }) => ({
      what: `Have ${name} measured again`,
      due: halfway,
    })),
    ...(missedStorm(tree, site, on) && !isPlanned
      ? [{ what: 'Have the tree inspected: nobody has since the storm', due: on }]
      : []),
    ...supportsInPlace(tree).flatMap(one => {
      const look = inspectionDue(one, settings, on);
      const end = serviceEnd(one, settings);
      return [
        look === undefined
          ? { what: `Have ${supportName(one)} inspected: no inspection of it is on record`, due: on }
          : { what: `Have ${supportName(one)} inspected`, due: look },
        ...(end === undefined
          ? []
          : [{ what: `Have ${supportName(one)} replaced at the end of its service life`, due: end }]),
      ];
    }),
  ].filter(({ due }) => due <= on + SEASON);
}

/** What nothing on record addresses in time, which the advice beside it would seem to; undefined where nothing is. */
export function unanswered(entry: ReportTree, { person, on }: ReportData): string | undefined {
  const { tree, site, settings, assessment } = entry;
  const context = { tree, site, settings, person, today: on };
  const signs = assessment.signs.filter(
    sign => sign.standing !== 'within' && !isAnsweredOrLate(sign, context),
  );
  const names = [
    ...signs.map(({ name }) => name),
    ...unansweredRatings(tree).map(risk => `${riskName(risk)}, rated ${ratingToActOn(risk)}`),
  ];
  return names.length === 0
    ? undefined
    : `Nothing on record is certain to address ${listed([...new Set(names)])} in time: a qualified person has to decide${signs.some(isMoving) ? ' the same day' : ''}.`;
}

/** Whether nothing is open at a tree that has its chapter all the same. */
export const needsNothing = (entry: ReportTree, on: number): boolean => {
  const {
    tree,
    assessment: { signs },
    urgency,
    findings,
  } = entry;
  return (
    urgency === 'watch' &&
    lastLook(tree, on) !== undefined &&
    upkeep(entry, on).length === 0 &&
    signs.every(({ standing }) => standing === 'within') &&
    openPrescriptionsOfAnyKind(tree).length + openFollowUps(tree).length === 0 &&
    !findings.some(isOpenError)
  );
};

/** What a tree without work or another inspection needs: where something is open, somebody has to decide. */
export function nothingPlanned({ tree, assessment: { signs }, urgency, findings }: ReportTree): string {
  const open = signs.filter(({ standing }) => standing !== 'within');
  if (open.length === 0 && !lastLook(tree, Number.POSITIVE_INFINITY))
    return 'No inspection is on record: have the tree inspected.';
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

/** Lines that were not read, which may say anything. */
export const unreadWords = ({ findings }: ReportTree, { shown }: ReportData): readonly string[] =>
  unreadLines(findings).map(
    ({ file, line, message }) =>
      `Line ${line} of ${shown(file)} could not be read, and what it says is missing here: ${message}`,
  );

/** What was not seen, and what protects the tree or lives in it. */
export const toKnow = ({ tree }: ReportTree, on: number): string =>
  tree.felled
    ? ''
    : [
        ...unseenWords(tree).map(words => `Not seen: ${words}`),
        ...duties(tree, on),
        ...powerLines(tree).map(capital),
      ]
        .map(words => `. ${words.replace(/\.$/, '')}`)
        .join('');

/** Whether people are kept out today, by whom. */
function closureWords({ closed }: Target, data: ReportData): readonly string[] {
  if (!closed?.by) return [];
  const { from, until, by } = closed;
  if (from > data.on) return [`to be closed from ${formatDate(from)}`];
  if (until !== undefined && until < data.on)
    return [`open again since its closure ended on ${formatDate(until)}`];
  return [
    `people kept out${until === undefined ? '' : ` until ${formatDate(until)}`} by ${personWords(by.value, data)}`,
  ];
}

/** Warnings of the check about permits for the work. */
export const permitDoubts = (
  { id }: Prescription,
  { findings, prescriptionsOf }: ReportTree,
): readonly Finding[] =>
  findings.filter(
    one =>
      one.rule.startsWith('permit-') && one.level === 'warning' && prescriptionsOf(one).includes(id.value),
  );

/** What was left undone of work that was begun, and a permit that it may need; errors are told apart. */
export const undone = (
  prescription: Prescription,
  entry: ReportTree,
): readonly (readonly [string, string])[] => {
  const { tree, settings } = entry;
  const left = lastWorkUnder(tree, prescription)?.unfinished;
  const permits = permitDoubts(prescription, entry);
  const job = jobName(prescription);
  const plain = (message: string) =>
    message.replaceAll(capital(job), 'This work').replaceAll(job, 'this work');
  return [
    ...(left ? [['Left undone', left.value] as const] : []),
    ...permits.map(({ message }) => ['Permit', readInRegion(plain(message), settings.region)] as const),
  ];
};

/** `power line "Alley line", 12.5 kV, 14 ft away`. */
const powerLines = ({ conductors }: Tree): readonly string[] =>
  conductors
    .filter(({ removed }) => !removed)
    .map(({ name, voltage, distance }) =>
      [
        `power line ${quoted(name.value)}`,
        voltage ? quantityText(voltage) : 'voltage not stated',
        distance ? `${quantityText(distance)} away` : 'at a distance not stated',
      ].join(', '),
    );

/** What is near a tree, and whether it is within reach. */
export function nearWords({ tree, settings }: ReportTree, data: ReportData): readonly string[] {
  const reached = new Set(targetsInReach(tree, settings));
  const targets = tree.targets.map(target => {
    const { name, distance, occupied } = target;
    const words = [
      quoted(name.value),
      distance ? `${quantityText(distance)} away` : 'at a distance not stated',
      ...(occupied ? [`occupied: ${occupied.value}`] : []),
      ...closureWords(target, data),
    ];
    return `${words.join(', ')} (${reached.has(target) ? 'within reach' : 'out of reach'})`;
  });
  return [...powerLines(tree), ...targets];
}

/** Work that was advised and withdrawn, with the reason: who signs answers for having advised it. */
export const withdrawnWords = ({ tree, settings }: ReportTree): readonly string[] =>
  tree.prescriptions.flatMap(one =>
    one.withdrawn
      ? [
          `Withdrawn on ${longDate(one.withdrawn.value, settings.region)}: ${plainWork(one, tree)}${one.withdrawnBecause ? ` (${one.withdrawnBecause.value})` : ''}.`,
        ]
      : [],
  );
