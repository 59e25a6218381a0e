/** The United States: federal law, and states with laws of their own or with oak wilt. */

import { type Citation, type Confidence, cite, type SourceId } from './citation.ts';
import {
  type ClosedSeason,
  type PruningWindow,
  type RegionPack,
  type Statute,
  yearly,
} from './region-pack.ts';
import { ELM_DISEASE, FIRE_BLIGHT } from './regions-other.ts';

const federal: readonly Statute[] = [
  {
    citation: cite('mbta'),
    protects: 'birds',
    prohibits: 'to take, kill or possess a migratory bird, its eggs or its nest in use, at any season',
    since: '1918-07-03',
  },
  {
    citation: cite('bgepa'),
    protects: 'eagles',
    prohibits: 'to take, disturb or molest a bald or golden eagle, its eggs or its nest, in use or not',
  },
  {
    citation: cite('esa'),
    protects: 'listed species',
    prohibits: 'to take a listed species, among them the northern long-eared bat',
  },
];

const practice: { readonly citation: Citation; readonly confidence: Confidence } = {
  citation: cite('practice'),
  confidence: 'common practice',
};

const unitedStates: RegionPack = {
  code: 'US',
  name: 'United States',
  nesting: { window: yearly('03-01..08-31'), ...practice },
  raptorNesting: { window: yearly('01-01..08-31'), ...practice },
  batMaternity: {
    window: yearly('05-01..08-15'),
    ...practice,
    note: 'Begins in mid-April in the south, in June in the north.',
  },
  nestSurveyValidity: { days: 7, ...practice },
  pruning: [ELM_DISEASE, FIRE_BLIGHT],
  statutes: federal,
  breastHeight: { height: 1.3716, ...practice },
  validFrom: '2023-03-31',
};

const oakWilt = (window: string, source: SourceId, confidence: Confidence, note?: string): PruningWindow => ({
  pest: 'oak wilt',
  genera: ['Quercus'],
  window: yearly(window),
  paint: true,
  citation: cite(source),
  confidence,
  ...(note === undefined ? {} : { note }),
});

const state = (code: string, name: string, changes: Partial<RegionPack>): RegionPack => ({
  ...unitedStates,
  ...changes,
  code: `US-${code}`,
  name,
});

const oakWiltState = (code: string, name: string, window: PruningWindow): RegionPack =>
  state(code, name, { pruning: [window, ...unitedStates.pruning] });

const fromMemory = (window: string): PruningWindow =>
  oakWilt(window, 'state-oak-wilt', 'from memory', 'The state’s own dates for the year decide.');

const PINE_BEETLES: PruningWindow = {
  pest: 'pine bark beetles',
  genera: ['Pinus'],
  window: yearly('02-01..09-30'),
  paint: false,
  citation: cite('uc-pines'),
  confidence: 'published',
};

const westernBats: ClosedSeason = {
  window: yearly('04-15..08-31'),
  ...practice,
  note: 'From mid-October to the end of February bats lie torpid: then, too, cavities are checked first.',
};

const california: readonly Statute[] = [
  {
    citation: cite('ca-fgc-3503'),
    protects: 'birds',
    prohibits: 'to take, possess or needlessly destroy the nest or eggs of any bird',
  },
  {
    citation: cite('ca-fgc-3503-5'),
    protects: 'birds of prey',
    prohibits: 'to take, possess or destroy a bird of prey, its nest or its eggs',
  },
  {
    citation: cite('ca-fgc-3513'),
    protects: 'birds',
    prohibits:
      'to take or possess a migratory bird as the federal act designated it before 2025, or later adds it',
    since: '2026-01-01',
  },
];

export const unitedStatesPacks: readonly RegionPack[] = [
  unitedStates,
  state('CA', 'California', {
    nesting: {
      window: yearly('02-01..08-31'),
      citation: cite('ca-nest-conditions'),
      confidence: 'published',
      note: 'No date holds for the whole state: conditions run from 1 January to 15 September.',
    },
    raptorNesting: {
      window: yearly('01-01..09-15'),
      citation: cite('ca-nest-conditions'),
      confidence: 'published',
    },
    batMaternity: westernBats,
    nestSurveyValidity: { days: 7, citation: cite('ca-nest-conditions'), confidence: 'published' },
    pruning: [PINE_BEETLES, ...unitedStates.pruning],
    statutes: [...federal, ...california],
    validFrom: '2026-01-01',
  }),
  state('OR', 'Oregon', {
    nesting: {
      window: yearly('02-01..08-31'),
      citation: cite('portland-birds'),
      confidence: 'published',
      note: 'Early season from 1 February, main season 15 April to 31 July; August by custom.',
    },
    batMaternity: westernBats,
  }),
  state('WA', 'Washington', {
    nesting: { window: yearly('02-01..08-31'), ...practice },
    batMaternity: westernBats,
    statutes: [
      ...federal,
      {
        citation: cite('rcw-77-15-130'),
        protects: 'birds',
        prohibits: 'to destroy the nests or eggs of protected birds',
      },
    ],
  }),
  oakWiltState(
    'MN',
    'Minnesota',
    oakWilt(
      '04-01..07-31',
      'mn-dnr-oak-wilt',
      'published',
      'Safe from November to February; little known risk between.',
    ),
  ),
  oakWiltState(
    'WI',
    'Wisconsin',
    oakWilt('04-01..07-31', 'wi-dnr-oak-wilt', 'published', 'To October for those who would be careful.'),
  ),
  oakWiltState(
    'MI',
    'Michigan',
    oakWilt(
      '04-15..07-15',
      'mi-dnr-oak-wilt',
      'published',
      'The time of greatest risk; some of its texts begin in mid-March.',
    ),
  ),
  oakWiltState(
    'IA',
    'Iowa',
    oakWilt(
      '03-15..10-01',
      'ia-dnr-oak-wilt',
      'published',
      'Usually from the end of March; from mid-March in an early spring.',
    ),
  ),
  oakWiltState('MO', 'Missouri', oakWilt('03-15..06-30', 'mo-oak-wilt', 'published')),
  state('TX', 'Texas', {
    pruning: [
      oakWilt('02-01..06-30', 'tx-oak-wilt', 'published', 'Wounds on oaks are painted all year.'),
      ...unitedStates.pruning,
    ],
    statutes: [
      ...federal,
      {
        citation: cite('tx-pwc-64'),
        protects: 'birds',
        prohibits: 'to destroy or take the nests, eggs or young of protected birds',
      },
    ],
  }),
  oakWiltState('IL', 'Illinois', fromMemory('04-01..10-15')),
  oakWiltState('IN', 'Indiana', fromMemory('04-01..07-31')),
  oakWiltState('OH', 'Ohio', fromMemory('04-01..10-15')),
  oakWiltState('PA', 'Pennsylvania', fromMemory('04-01..10-15')),
  oakWiltState(
    'NY',
    'New York',
    oakWilt('03-01..09-30', 'ny-dec-oak-wilt', 'published', 'Oaks are pruned between October and February.'),
  ),
  oakWiltState('KS', 'Kansas', fromMemory('03-15..07-31')),
  oakWiltState('NE', 'Nebraska', fromMemory('04-01..07-31')),
];
