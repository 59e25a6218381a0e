/** The default, and countries other than the United States. */

import { type Citation, type Confidence, cite } from './citation.ts';
import { type PruningWindow, type RegionPack, type Statute, yearly } from './region-pack.ts';

const practice: { readonly citation: Citation; readonly confidence: Confidence } = {
  citation: cite('practice'),
  confidence: 'common practice',
};

/** Flight season of the bark beetles that carry the fungus. */
export const ELM_DISEASE: PruningWindow = {
  pest: 'Dutch elm disease',
  genera: ['Ulmus'],
  window: yearly('04-01..08-31'),
  paint: false,
  ...practice,
};

/** Hosts of the rose family are pruned while dormant. */
export const FIRE_BLIGHT: PruningWindow = {
  pest: 'fire blight',
  genera: [
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
  ],
  window: yearly('04-01..06-30'),
  paint: false,
  citation: cite('fire-blight'),
  confidence: 'from memory',
  note: 'From bloom on; never in wet weather.',
};

/** Plums and cherries are pruned in summer only. */
const SILVER_LEAF: PruningWindow = {
  pest: 'silver leaf',
  genera: ['Prunus'],
  window: yearly('09-01..05-31'),
  paint: false,
  citation: cite('silver-leaf'),
  confidence: 'from memory',
};

export const defaultPack: RegionPack = {
  code: 'default',
  name: 'no region',
  nesting: { window: yearly('03-01..08-31'), ...practice, note: 'Of the northern temperate zone.' },
  raptorNesting: { window: yearly('02-01..08-31'), ...practice },
  batMaternity: { window: yearly('05-01..08-31'), ...practice },
  nestSurveyValidity: { days: 7, ...practice },
  pruning: [ELM_DISEASE, FIRE_BLIGHT],
  statutes: [],
  breastHeight: { height: 1.3, ...practice },
  validFrom: '2020-01-01',
};

const country = (code: string, name: string, changes: Partial<RegionPack>): RegionPack => ({
  ...defaultPack,
  ...changes,
  code,
  name,
});

const birdsAct: Statute = {
  citation: cite('wca-1981'),
  protects: 'birds',
  prohibits:
    'to take, damage or destroy the nest of a wild bird while it is in use or being built, or an egg',
  since: '1982-09-28',
};
const bats = (source: 'habitats-regs-2017' | 'habitats-regs-1994' | 'habitats-regs-1995'): Statute => ({
  citation: cite(source),
  protects: 'bats',
  prohibits: 'to disturb or kill a bat, or to damage or destroy its roost, also while the roost is empty',
});

const unitedKingdom: Partial<RegionPack> = {
  nesting: {
    window: yearly('03-01..08-31'),
    ...practice,
    note: 'No closed season in law: a nest in use is protected all year.',
  },
  nestSurveyValidity: { days: 2, ...practice },
  pruning: [ELM_DISEASE, FIRE_BLIGHT, SILVER_LEAF],
  breastHeight: { height: 1.5, citation: cite('bs-5837-2012'), confidence: 'published' },
  validFrom: '2017-11-30',
};

const southern: Partial<RegionPack> = {
  nesting: { window: yearly('08-01..02-28'), ...practice },
  raptorNesting: { window: yearly('07-01..01-31'), ...practice },
  batMaternity: { window: yearly('10-01..02-28'), ...practice },
  breastHeight: { height: 1.4, citation: cite('as-4970-2009'), confidence: 'from memory' },
};

export const otherPacks: readonly RegionPack[] = [
  country('GB', 'United Kingdom', { ...unitedKingdom, statutes: [birdsAct, bats('habitats-regs-2017')] }),
  country('GB-SCT', 'Scotland', { ...unitedKingdom, statutes: [birdsAct, bats('habitats-regs-1994')] }),
  country('GB-NIR', 'Northern Ireland', {
    ...unitedKingdom,
    statutes: [
      {
        citation: cite('wildlife-order-ni'),
        protects: 'birds',
        prohibits:
          'to take, damage or destroy the nest of a wild bird while it is in use or being built, or an egg',
      },
      bats('habitats-regs-1995'),
    ],
  }),
  country('IE', 'Ireland', {
    nesting: {
      window: yearly('03-01..08-31'),
      rests: 'law',
      citation: cite('wildlife-act-ie'),
      confidence: 'from memory',
      note: 'In law for hedges and for vegetation on land not tilled; by custom for single trees.',
    },
    statutes: [
      {
        citation: cite('wildlife-act-ie'),
        protects: 'trees and hedges',
        prohibits: 'to cut or destroy hedges, or vegetation on land not tilled, from 1 March to 31 August',
      },
      {
        citation: cite('birds-directive'),
        protects: 'birds',
        prohibits: 'to destroy or remove nests and eggs of wild birds',
      },
      {
        citation: cite('habitats-directive'),
        protects: 'bats',
        prohibits: 'to disturb bats or to destroy their roosts',
      },
    ],
  }),
  country('DE', 'Germany', {
    nesting: {
      window: yearly('03-01..09-30'),
      rests: 'law',
      citation: cite('bnatschg-39'),
      confidence: 'from memory',
      note: 'In law for trees outside forests and gardens, for hedges and shrubs; light shaping cuts are allowed.',
    },
    statutes: [
      {
        citation: cite('bnatschg-39'),
        protects: 'trees and hedges',
        prohibits:
          'to cut down or cut to the stump trees outside forests and gardens, hedges and shrubs, from 1 March to 30 September',
        since: '2010-03-01',
      },
      {
        citation: cite('birds-directive'),
        protects: 'birds',
        prohibits: 'to destroy or remove nests and eggs of wild birds',
      },
      {
        citation: cite('habitats-directive'),
        protects: 'bats',
        prohibits: 'to disturb bats or to destroy their roosts',
      },
    ],
    validFrom: '2010-03-01',
  }),
  country('CA', 'Canada', {
    nesting: {
      window: yearly('03-15..08-31'),
      ...practice,
      note: 'Nesting zones of the federal government differ by weeks.',
    },
    statutes: [
      {
        citation: cite('mbca-canada'),
        protects: 'birds',
        prohibits:
          'to damage, destroy, disturb or remove a nest of a migratory bird that holds a live bird or a viable egg',
        since: '2022-07-30',
      },
    ],
    validFrom: '2022-07-30',
  }),
  country('AU', 'Australia', southern),
  country('NZ', 'New Zealand', { ...southern, pruning: [...defaultPack.pruning] }),
];
