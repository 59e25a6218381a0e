/**
 * Seasons by custom, dates of agencies against pests of fresh wounds, and heights of measurement. They hold where a
 * country is named; a subdivision with a row of its own for the same subject replaces them. Long because it is one table, read as
 * one.
 */

import { cite, type SourceId } from '../citation.ts';
import { yearly } from '../region-pack.ts';
import type { LawRow, LawRule, SeasonOf, WoundPest } from './law-row.ts';
import { keepAway, STAND_IN_STEPS, words } from './rows.ts';

/** Rows that hold everywhere, in regions without rows of their own too. */
export const EVERYWHERE = 'everywhere';
/** Rows for inventories that state no region. */
export const UNSTATED = 'unstated';

/** Countries of the northern temperate zone with rows of their own. */
const NORTH = 'AT BE CA CH DE DK ES FR GB IE IT NL PL SE US'.split(' ');
const NORTH_OR_UNSTATED = [...NORTH, UNSTATED];
const WEST_COAST = ['US-CA', 'US-OR', 'US-WA'];

interface About {
  readonly id: string;
  readonly region: readonly string[];
  readonly says: string;
  readonly notIn?: readonly string[];
}

const custom = (about: About, rule: LawRule, subject: LawRow['subject']): LawRow => ({
  ...about,
  subject,
  binds: 'nobody',
  source: cite('practice').short,
  force: 'custom',
  read: 'memory',
  rule,
});

const season = (of: SeasonOf, closed: string, about: About): LawRow =>
  custom(about, { kind: 'season', of, closed: yearly(closed) }, of.startsWith('bat') ? 'bats' : 'birds');

/** Of an agency or a standard; what was read is known from the table of sources. */
const published = (about: About, source: SourceId, rule: LawRule, subject: LawRow['subject']): LawRow => ({
  ...about,
  subject,
  binds: 'anyone, as guidance',
  source: cite(source).short,
  force: 'guidance',
  read: cite(source).confidence === 'published' ? 'text' : 'memory',
  readOn: '2026-11-25',
  rule,
});

const oakWilt = (state: string, closed: string, source: SourceId, more: string): LawRow =>
  published(
    {
      id: `us-${state.toLowerCase()}-oak-wilt`,
      region: [`US-${state}`],
      says: `Oak wilt: oaks are not pruned or wounded ${closed}. ${more}`,
    },
    source,
    { kind: 'pest', pest: 'oak wilt', genera: ['Quercus'], closed: yearly(closed), paint: true },
    'pests',
  );

const STATE_DECIDES = 'The dates of the state for the year decide.';

const ROSE_FAMILY = [
  'Amelanchier',
  'Cotoneaster',
  'Crataegus',
  'Cydonia',
  'Eriobotrya',
  'Malus',
  'Mespilus',
  'Photinia',
  'Pyracantha',
  'Pyrus',
  'Sorbus',
];

const pest = (name: WoundPest, genera: readonly string[], closed: string): LawRule => ({
  kind: 'pest',
  pest: name,
  genera,
  closed: yearly(closed),
});

const measuredAt = (height: number): LawRule => ({ kind: 'breast height', height });

export const customRows: readonly LawRow[] = [
  season('birds', '03-01..08-31', {
    id: 'north-birds',
    region: NORTH_OR_UNSTATED,
    says: 'Birds nest from March to August by custom, in the northern temperate zone.',
  }),
  season('birds of prey', '02-01..08-31', {
    id: 'north-raptors',
    region: NORTH_OR_UNSTATED,
    says: 'Birds of prey nest from February to August by custom.',
  }),
  season('birds of prey', '01-01..08-31', {
    id: 'us-raptors',
    region: ['US'],
    says: 'Birds of prey nest from January to August by custom.',
  }),
  season('bat maternity', '05-01..08-31', {
    id: 'north-bats',
    region: NORTH_OR_UNSTATED,
    says: 'Bats rear their young from May to August by custom.',
  }),
  season('bat maternity', '05-01..08-15', {
    id: 'us-bats',
    region: ['US'],
    says: 'Bats rear their young from May to mid-August by custom; from mid-April in the south, from June in the north.',
  }),
  season('bat maternity', '04-15..08-31', {
    id: 'us-west-bats',
    region: WEST_COAST,
    says: 'Bats rear their young from mid-April to August. From mid-October to the end of February they lie torpid: then, too, cavities are checked first.',
  }),
  season('birds of prey', '07-01..01-31', {
    id: 'south-raptors',
    region: ['AU', 'NZ'],
    says: 'Birds of prey nest from July to January by custom.',
  }),
  season('birds of prey', '05-01..01-31', {
    id: 'za-raptors',
    region: ['ZA'],
    says: 'Eagles and some other birds of prey nest from May on, in winter, and others until January.',
  }),
  season('bat maternity', '10-01..02-28', {
    id: 'south-bats',
    region: ['AU', 'NZ', 'ZA'],
    says: 'Bats rear their young from October to February by custom.',
  }),
  published(
    {
      id: 'us-ca-birds',
      region: ['US-CA'],
      says: 'Birds nest from February to August. No date holds for the whole state: conditions of permits run from 1 January to 15 September.',
    },
    'ca-nest-conditions',
    { kind: 'season', of: 'birds', closed: yearly('02-01..08-31') },
    'birds',
  ),
  published(
    {
      id: 'us-ca-raptors',
      region: ['US-CA'],
      says: 'Birds of prey nest from January to mid-September.',
    },
    'ca-nest-conditions',
    { kind: 'season', of: 'birds of prey', closed: yearly('01-01..09-15') },
    'birds',
  ),
  published(
    {
      id: 'us-or-birds',
      region: ['US-OR'],
      says: 'Early nesting season from 1 February, main season from 15 April to 31 July; August by custom.',
    },
    'portland-birds',
    { kind: 'season', of: 'birds', closed: yearly('02-01..08-31') },
    'birds',
  ),
  season('birds', '02-01..08-31', {
    id: 'us-wa-birds',
    region: ['US-WA'],
    says: 'Birds nest from February to August by custom.',
  }),
  custom(
    { id: 'nest-survey', region: [EVERYWHERE], says: 'A nest survey holds for 7 days by custom.' },
    { kind: 'nest survey', days: 7 },
    'birds',
  ),
  published(
    {
      id: 'us-ca-nest-survey',
      region: ['US-CA'],
      says: 'A nest survey is repeated after a lapse of 7 days.',
    },
    'ca-nest-conditions',
    { kind: 'nest survey', days: 7 },
    'birds',
  ),
  custom(
    { id: 'gb-nest-survey', region: ['GB'], says: 'A nest survey holds for 2 days by custom.' },
    { kind: 'nest survey', days: 2 },
    'birds',
  ),
  {
    id: 'gb-birds',
    region: ['GB'],
    notIn: ['GB-NIR', 'GB-ENG', 'GB-WLS'],
    subject: 'birds',
    says: 'No nest of a wild bird is taken, damaged or destroyed while it is in use or being built, nor an egg. No law closes a season: a nest in use is protected all year.',
    binds: 'anyone',
    source: 'Wildlife and Countryside Act 1981, s. 1(1)',
    act: 'Wildlife and Countryside Act 1981',
    protects: 'birds',
    force: 'law',
    read: 'text',
    rule: { kind: 'nest', empty: 'free' },
  },
  {
    id: 'gb-bats',
    region: ['GB'],
    notIn: ['GB-NIR', 'GB-ENG', 'GB-WLS', 'GB-SCT'],
    subject: 'bats',
    says: 'No bat is disturbed or killed, and no roost damaged or destroyed, also while it is empty. Scotland and Northern Ireland have regulations of their own.',
    binds: 'anyone',
    source: 'Conservation of Habitats and Species Regulations 2017, S.I. 2017/1012, reg. 43',
    act: 'Habitats Regulations 2017',
    protects: 'bats',
    force: 'law',
    read: 'text',
    from: '2017-11-30',
    rule: words,
  },
  {
    id: 'gb-sct-bats',
    region: ['GB-SCT'],
    subject: 'bats',
    says: 'No bat is disturbed or killed, and no roost damaged or destroyed, also while it is empty.',
    binds: 'anyone',
    source: 'Conservation (Natural Habitats, &c.) Regulations 1994, S.I. 1994/2716, reg. 39, as in Scotland',
    act: 'Habitats Regulations 1994',
    protects: 'bats',
    force: 'law',
    read: 'memory',
    rule: words,
  },
  {
    id: 'gb-nir-bats',
    region: ['GB-NIR'],
    subject: 'bats',
    says: 'No bat is disturbed or killed, and no roost damaged or destroyed, also while it is empty.',
    binds: 'anyone',
    source:
      'Conservation (Natural Habitats, etc.) Regulations (Northern Ireland) 1995, S.R. 1995/380, reg. 34',
    act: 'Habitats Regulations (Northern Ireland) 1995',
    protects: 'bats',
    force: 'law',
    read: 'memory',
    rule: words,
  },
  {
    id: 'de-bats',
    region: ['DE'],
    subject: 'bats',
    says: 'Bats are strictly protected: they are not disturbed significantly, and their roosts not damaged or destroyed at any time.',
    binds: 'anyone',
    source: 'BNatSchG § 44(1) no. 1 to 3',
    act: 'BNatSchG § 44(1)',
    protects: 'bats',
    force: 'law',
    read: 'text',
    rule: words,
  },
  {
    id: 'us-ca-raptor-nests',
    region: ['US-CA'],
    subject: 'birds',
    says: 'No bird of prey, its nest or its eggs are taken, possessed or destroyed.',
    binds: 'anyone',
    source: 'California Fish and Game Code 3503.5',
    protects: 'birds of prey',
    force: 'law',
    read: 'text',
    rule: words,
  },
  {
    id: 'us-ca-migratory',
    region: ['US-CA'],
    subject: 'birds',
    says: 'No migratory bird is taken or possessed that the federal act designated before 2025 or adds later.',
    binds: 'anyone',
    source: 'California Fish and Game Code 3513',
    protects: 'birds',
    force: 'law',
    read: 'text',
    doubt: 'the day on which it came into force is doubtful',
    from: '2026-01-01',
    rule: words,
  },
  oakWilt(
    'MN',
    '04-01..07-31',
    'mn-dnr-oak-wilt',
    'Safe from November to February; little known risk between.',
  ),
  oakWilt('WI', '04-01..07-31', 'wi-dnr-oak-wilt', 'To October for those who would be careful.'),
  oakWilt(
    'MI',
    '04-15..07-15',
    'mi-dnr-oak-wilt',
    'The time of greatest risk; some of its texts begin in mid-March.',
  ),
  oakWilt(
    'IA',
    '03-15..10-01',
    'ia-dnr-oak-wilt',
    'Usually from the end of March; from mid-March in an early spring.',
  ),
  oakWilt('MO', '03-15..06-30', 'mo-oak-wilt', STATE_DECIDES),
  oakWilt('IL', '04-01..10-15', 'state-oak-wilt', STATE_DECIDES),
  oakWilt('IN', '04-01..07-31', 'state-oak-wilt', STATE_DECIDES),
  oakWilt('OH', '04-01..10-15', 'state-oak-wilt', STATE_DECIDES),
  oakWilt('KS', '03-15..07-31', 'state-oak-wilt', STATE_DECIDES),
  oakWilt('NE', '04-01..07-31', 'state-oak-wilt', STATE_DECIDES),
  published(
    {
      id: 'us-ca-pines',
      region: ['US-CA'],
      says: 'Pine bark beetles: pines are pruned from October to January.',
    },
    'uc-pines',
    pest('pine bark beetles', ['Pinus'], '02-01..09-30'),
    'pests',
  ),
  custom(
    {
      id: 'north-elms',
      region: NORTH_OR_UNSTATED,
      says: 'Dutch elm disease: elms are not pruned from April to August, while the beetles that carry it fly.',
    },
    pest('Dutch elm disease', ['Ulmus'], '04-01..08-31'),
    'pests',
  ),
  custom(
    {
      id: 'nz-elms',
      region: ['NZ'],
      says: 'Dutch elm disease: elms are not pruned from October to February, while the beetles that carry it fly.',
    },
    pest('Dutch elm disease', ['Ulmus'], '10-01..02-28'),
    'pests',
  ),
  published(
    {
      id: 'north-fire-blight',
      region: NORTH_OR_UNSTATED,
      says: 'Fire blight: hosts of the rose family are not pruned from bloom in April to June, and never in wet weather.',
    },
    'fire-blight',
    pest('fire blight', ROSE_FAMILY, '04-01..06-30'),
    'pests',
  ),
  published(
    {
      id: 'nz-fire-blight',
      region: ['NZ'],
      says: 'Fire blight: hosts of the rose family are not pruned from bloom in October to December, and never in wet weather.',
    },
    'fire-blight',
    pest('fire blight', ROSE_FAMILY, '10-01..12-31'),
    'pests',
  ),
  published(
    {
      id: 'gb-silver-leaf',
      region: ['GB'],
      says: 'Silver leaf: plums and cherries are pruned in summer only.',
    },
    'silver-leaf',
    pest('silver leaf', ['Prunus'], '09-01..05-31'),
    'pests',
  ),
  custom(
    { id: 'breast-height', region: [EVERYWHERE], says: 'The diameter is measured at 1.3 m.' },
    measuredAt(1.3),
    'measuring',
  ),
  custom(
    { id: 'us-breast-height', region: ['US'], says: 'The diameter is measured at 4.5 ft.' },
    measuredAt(1.3716),
    'measuring',
  ),
  published(
    { id: 'gb-breast-height', region: ['GB'], says: 'The diameter is measured at 1.5 m.' },
    'bs-5837-2012',
    measuredAt(1.5),
    'measuring',
  ),
  published(
    { id: 'au-breast-height', region: ['AU', 'NZ'], says: 'The diameter is measured at 1.4 m.' },
    'as-4970-2009',
    measuredAt(1.4),
    'measuring',
  ),
  {
    id: 'stand-in-approach',
    region: [EVERYWHERE],
    subject: 'lines',
    says: 'Where no distance to lines is on record: the greatest of the distances found anywhere, 4 m up to 33 kV, 6 m to 66 kV, 8 m to 500 kV, 12 m above and where the voltage is unknown, with the advice of the owner first. It is a caution, not the law of any place.',
    binds: 'nobody: it stands in for a law that is not on record',
    source: 'the greatest of the distances on record',
    act: 'stand-in, not the law of the place',
    force: 'custom',
    read: 'conclusion',
    rule: keepAway(STAND_IN_STEPS, { unknown: 12, consent: true }),
  },
];
