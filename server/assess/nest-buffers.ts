/** How far work keeps away from a nest: by the limit of its group of birds, and by the rows of the place. */

import { memo } from '../base/memo.ts';
import { lengthUnitOf } from '../base/quantity.ts';
import type { Setting, Settings } from '../facts/settings.ts';
import { nestBuffer } from '../practice/birds.ts';
import { cited, isFromMemory, ofKind, type RowOf } from '../practice/law/laws-of.ts';
import type { RegionPack } from '../practice/region-pack.ts';
import type { FoundNest } from './active-nests.ts';
import type { NestingSeason } from './nesting.ts';

type BufferRow = RowOf<'nest buffer'>;

/** One distance from a nest, and when it is kept. */
export interface Keeping {
  /** The distance, on a day where one is given. */
  readonly setting: (on?: number) => Setting;
  /** Seasons of a nest in use; undefined where trees around the nest stay at every date, in use or not. */
  readonly seasons: readonly Pick<NestingSeason, 'season'>[] | undefined;
  /** Why it may not bind, in clauses; none if it does. */
  readonly doubts: readonly string[];
}

const rowsIn = memo(({ rows }: RegionPack): readonly BufferRow[] => ofKind(rows, 'nest buffer'));

/** Whether the row is about this bird; `perhaps` where only its genus is on record. */
function isOf({ rule }: BufferRow, species: FoundNest['species']): 'yes' | 'perhaps' | 'no' {
  if (!species) return 'no';
  const { genus, binomial } = species;
  if (rule.of.includes(genus) || (binomial !== undefined && rule.of.includes(binomial))) return 'yes';
  return binomial === undefined && rule.of.some(name => name.startsWith(`${genus} `)) ? 'perhaps' : 'no';
}

function settingOf(row: BufferRow, distance: number, { region }: Settings): Setting {
  return {
    value: distance,
    unit: lengthUnitOf(distance).symbol,
    direction: 'at least',
    citation: {
      short: cited(row),
      full: row.source,
      confidence: isFromMemory(row) ? 'from memory' : 'published',
    },
    origin: { from: 'region', name: region.name },
  };
}

/** The distances that the place has for work around a nest of this bird, or for trees that stay around it. */
function placed(
  { species }: Pick<FoundNest, 'species'>,
  acts: BufferRow['rule']['acts'],
  seasons: readonly NestingSeason[],
  settings: Settings,
): readonly Keeping[] {
  return rowsIn(settings.region).flatMap((row): Keeping[] => {
    const { distance, closed, onlyIf } = row.rule;
    const is = isOf(row, species);
    if (row.rule.acts !== acts || is === 'no' || distance === undefined) return [];
    const setting = settingOf(row, distance, settings);
    const season = closed && {
      window: closed,
      citation: setting.citation,
      confidence: setting.citation.confidence,
      origin: setting.origin,
    };
    return [
      {
        setting: () => setting,
        seasons: acts === 'felling' ? undefined : season ? [{ season }] : seasons,
        doubts: [
          ...(is === 'perhaps' ? [`it is for ${row.rule.of.join(' and ')} alone`] : []),
          ...(onlyIf ? [onlyIf] : []),
          ...(isFromMemory(row) ? ['the row is from memory'] : []),
          ...(row.doubt ? [row.doubt] : []),
        ],
      },
    ];
  });
}

const isInAmerica = ({ region, regionApplied }: Settings): boolean =>
  regionApplied === 'unstated' || /^US(?:-|$)/.test(region.code);

/** The limit of its group of birds. What is from America only stands in elsewhere. */
function limitOf({ species }: Pick<FoundNest, 'species'>, settings: Settings, on?: number): Setting {
  const setting = settings.limit(nestBuffer(species?.name), on);
  if (setting.origin.from !== 'table' || isInAmerica(settings)) return setting;
  const { citation } = setting;
  return { ...setting, citation: { ...citation, short: `${citation.short}, a stand-in here` } };
}

/** What work keeps from a nest in use, those of the place first. */
export const keepings = (
  nest: Pick<FoundNest, 'species'>,
  seasons: readonly NestingSeason[],
  settings: Settings,
): readonly Keeping[] => [
  ...placed(nest, 'work', seasons, settings),
  { setting: on => limitOf(nest, settings, on), seasons, doubts: [] },
];

/** Within what distance of a nest trees stay at every date. */
export const treesKept = (nest: Pick<FoundNest, 'species'>, settings: Settings): readonly Keeping[] =>
  placed(nest, 'felling', [], settings);

/** The greatest distance that work certainly keeps from a nest in use. */
export const bufferOf = (nest: Pick<FoundNest, 'species'>, settings: Settings, on: number): Setting =>
  keepings(nest, [], settings)
    .filter(({ doubts }) => doubts.length === 0)
    .map(({ setting }) => setting(on))
    .reduce((most, one) => (one.value > most.value ? one : most));

/** Whether no distance is on record for this bird in the place, neither of a source nor of the office. */
export const isWithoutBuffer = ({ species }: Pick<FoundNest, 'species'>, settings: Settings): boolean =>
  settings.limit(nestBuffer(species?.name)).origin.from !== 'practice' &&
  rowsIn(settings.region).some(row => row.rule.distance === undefined && isOf(row, species) !== 'no');
