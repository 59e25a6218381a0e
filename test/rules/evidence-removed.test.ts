/**
 * Taking a record away never makes an error go without another as grave: a gate that lets an expired permit through
 * once its line is deleted asks people to delete it. Held over all samples and the examples of all rules.
 */

import { describe, expect, it } from 'vitest';
import { parseDate } from '../../server/base/dates.ts';
import { buildWorkspace, readFile } from '../../server/facts/workspace.ts';
import { checkWorkspace } from '../../server/rules/check.ts';
import { isMistakeCode } from '../../server/rules/mistake-codes.ts';
import { RULES, ruleNamed } from '../../server/rules/registry.ts';
import { sampleFiles } from '../samples/sample-files.ts';
import { type Removal, type Text, vanishing } from './evidence-removed.ts';

/**
 * What is its own finding, by head and field: the thing that was found (a nest, a roost, a line, a target), what
 * somebody claimed or asked for, and what says of which kind the tree is. Without it there is nothing to judge.
 */
const OWN: Readonly<Record<string, readonly string[] | 'any'>> = {
  'prescription.prescription': 'any',
  'work.work': 'any',
  'defect.defect': 'any',
  'joined.joined': 'any',
  'stem.stem': 'any',
  'limb.limb': 'any',
  'target.target': 'any',
  'conductor.conductor': 'any',
  'risk.risk': 'any',
  'accept.accept': 'any',
  'accept.until': ['accept-too-long'],
  'inspection.inspection': [
    'flight-airspace',
    'flight-height',
    'flight-out-of-sight',
    'flight-over-people',
    'flight-park',
    'flight-permission',
    'flight-near-nest',
    'unqualified-person',
  ],
  'nest check.nest check': [
    'cutting-ban',
    'empty-nest',
    'nest-active',
    'flight-near-nest',
    'unqualified-person',
  ],
  // A tree of unknown height may be one of those that a ban is for, which is a warning.
  'tree.height': ['cutting-ban'],
  'nest check.found': ['cutting-ban', 'empty-nest', 'nest-active', 'flight-near-nest'],
  'bat check.bat check': ['bat-roost', 'unqualified-person'],
  'bat check.found': ['bat-roost'],
  'tree.protected': ['permit-expired', 'permit-missing', 'permit-needed', 'permit-scope', 'share-by-law'],
  'tree.stressed': ['season-dose'],
  'tree.age': ['season-dose'],
  'tree.species': ['pruning-season', 'piece-too-heavy', 'permit-needed', 'wood-under-quarantine'],
  // Then nothing is said of the wood, which is a warning.
  'prescription.wood': ['wood-under-quarantine'],
  // A size that is not on record may take a permit, which is a warning.
  'tree.girth': ['permit-needed'],
  'tree.dbh': ['permit-needed'],
  // Then all of it was done.
  'work.unfinished': ['window-unstated'],
  'tree.soil': ['soil-heaving'],
  'tree.lean': ['lean-new', 'soil-heaving'],
  'risk.failure': ['rating-mismatch'],
  'risk.impact': ['rating-mismatch'],
  'risk.consequences': ['rating-mismatch'],
  'risk.rating': ['rating-mismatch'],
  // What the crew is told to do, and nothing else.
  'prescription.cuts': ['lateral-ratio'],
  'prescription.method': ['topping', 'flush-cut', 'lion-tailing'],
  'prescription.height': ['total-reduction', 'season-dose'],
  'prescription.spread': ['total-reduction', 'season-dose'],
  'prescription.piece': ['piece-too-heavy'],
  'prescription.rigged': ['rigging-overload'],
  // The dose of the prescription stands in for that of the work.
  'work.dose': ['season-dose'],
};

/**
 * Signs and what rests on them: where a reading goes it comes back as not judged, which test/ordinary holds. Those that
 * ask for the crew, the takedown or the priority are not held here yet.
 */
const OF_SIGNS: ReadonlySet<string> = new Set([
  'stress-ratio-after',
  'reduction-short-of-offset',
  'offset-beyond-season',
  'takedown-unstated',
  'unsafe-to-climb',
]);
const isOfSigns = (rule: string): boolean =>
  OF_SIGNS.has(rule) || ['structure', 'mitigation'].includes(ruleNamed(rule)?.group ?? '');

/** About the text or the lists, and not about the tree: the mistake goes with its line. */
const isOfRecords = (rule: string): boolean => isMistakeCode(rule) || ruleNamed(rule)?.group === 'records';

function isOwn(key: string, { head, headLine, field, block }: Removal): boolean {
  const rule = key.split(' ')[0]!;
  if (isOfRecords(rule) || isOfSigns(rule)) return true;
  // A tree that nothing protects needs no permit; cleaning may take no living wood.
  if (head === 'prescription' && field === 'permit') return !/^ {2}protected /m.test(block);
  if (head === 'prescription' && field === 'dose') return headLine.endsWith(' clean');
  const own = OWN[`${head}.${field}`];
  return own === 'any' || (own?.includes(rule) ?? false);
}

const TODAY = parseDate('2026-06-01')!;

const lost = (texts: readonly Text[], today: string): readonly string[] =>
  [...vanishing(texts, parseDate(today)!)]
    .filter(removal => removal.came.length === 0 && removal.went.some(key => !isOwn(key, removal)))
    .map(
      ({ path, tree, head, taken, went }) =>
        `${path}, tree ${tree}, ${head}: ${taken.trim().split('\n')[0]} [${went.join(', ')}]`,
    );

describe('an error that goes with a line of the record leaves another', () => {
  it.each(['fernhollow', 'errors'])('in samples/%s', folder => {
    expect(lost(sampleFiles(folder), '2026-06-01')).toEqual([]);
  });

  it('in the examples of every rule', () => {
    const examples = RULES.flatMap(({ name, examples }) =>
      examples.map(({ text, on = '2026-06-01' }) => ({ name, on, text: text.replace(/ *#!.*$/gm, '') })),
    );
    expect(examples.flatMap(({ name, on, text }) => lost([{ path: `${name}.wood`, text }], on))).toEqual([]);
  });

  it.each([
    ['    exclusion 20 ft', ['work-over-target-without-exclusion']],
    ['    permit TR-2291, until 2026-04-30', ['permit-missing']],
    ['    between 2026-06-08..2026-06-12', ['window-unstated']],
    ['    dose 40 %', ['dose-unstated']],
    ['    with ROPE', ['conductor-distance']],
    ['    voltage 230 kV', ['conductor-distance']],
    ['    distance 14 ft', ['conductor-distance']],
    [
      '    flown 430 ft, permission owner, over people, 10 ft stand-off',
      ['flight-height', 'flight-near-nest'],
    ],
    ['    by PS', ['unqualified-person']],
    ['    found none', ['nest-check-missing']],
    ['  nest check 2026-03-01 from lift\n    found none', ['nest-check-missing']],
  ])('%s', (line, rules) => {
    const errors = (text: string) =>
      checkWorkspace(buildWorkspace([readFile('trees.wood', text)]), TODAY).filter(
        ({ level }) => level === 'error',
      );
    const before = errors(WHOLE);
    const after = errors(WHOLE.replace(`${line}\n`, ''));
    expect(after).not.toEqual(before);
    expect(after.map(({ rule }) => rule)).toEqual(expect.arrayContaining(rules));
  });

  it('also where it stays and says that nobody saw it', () => {
    const errors = (text: string) =>
      checkWorkspace(buildWorkspace([readFile('trees.wood', text)]), TODAY)
        .filter(({ level }) => level === 'error')
        .map(({ tree, rule }) => `${tree} ${rule}`);
    const unseen = WHOLE.replace('exclusion 20 ft', 'exclusion unseen')
      .replace('dose 40 %', 'dose unseen')
      .replace('voltage 230 kV', 'voltage unseen')
      .replace('distance 14 ft', 'distance unseen')
      .replace('10 ft stand-off', 'unseen stand-off');
    expect(errors(unseen)).toEqual(
      expect.arrayContaining([
        '1 work-over-target-without-exclusion',
        '2 dose-unstated',
        '3 conductor-distance',
        '4 flight-near-nest',
      ]),
    );
  });
});

/** One of each; what is wrong with it is wrong by the line named above. */
const WHOLE = `site "Fernhollow Court"
  region US-OR
  grounds private

person RV "Ruth Varga"
  qualified consulting arborist

person PS "Pia Santoro"
  qualified trainee

crew ROPE "Rope crew"
  qualified climbing arborist

tree 1 "Exclusion"
  height 60 ft
  target "Path"
    distance 30 ft
  prescription R1 fell
    between 2026-09-15..2026-10-30
    exclusion 20 ft

tree 2 "Permit, window and dose"
  protected by "heritage tree list no. 2"
  height 60 ft
  crown from 10 ft, 40 ft wide
  nest check 2026-03-01 from lift
    found none
  prescription R1 reduce
    dose 40 %
    between 2026-06-08..2026-06-12
    permit TR-2291, until 2026-04-30

tree 3 "Line"
  crown from 10 ft, 40 ft wide
  conductor "Field line"
    voltage 230 kV
    distance 14 ft
  prescription R1 clean
    between 2026-09-15..2026-10-30
    with ROPE

tree 4 "Flight"
  inspection 2026-04-22 from drone
    by PS
    flown 430 ft, permission owner, over people, 10 ft stand-off
  nest check 2026-04-20 from lift
    found active Turdus migratorius at 20 ft
`;
