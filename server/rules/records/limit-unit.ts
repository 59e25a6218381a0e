import { showQuantity, unitsFor } from '../../base/quantity.ts';
import { fitsLimit, writtenDimension } from '../../facts/settings.ts';
import { findLimit, type LimitEntry } from '../../practice/limits.ts';
import { NOTHING, type PlacedReport, type Rule, spanOf, type WorkspaceContext } from '../rule.ts';

function* checkWorkspace({ workspace }: WorkspaceContext): Iterable<PlacedReport> {
  for (const placed of [...workspace.practices.values()].flat()) {
    for (const { name, value } of placed.fact.limits) {
      const limit = findLimit(name.value);
      if (!limit || fitsLimit(limit, value.value)) continue;
      yield {
        in: placed,
        at: spanOf(value),
        grade: 'stated',
        subject: limit.name,
        message: `The limit ${limit.name} (${limit.summary}) must be ${wanted(limit)}, not ${showQuantity(value.value)}. The line has no effect.`,
        remedy: `Write one figure ${units(limit)}.`,
      };
    }
  }
}

const wanted = ({ dimension }: LimitEntry): string => {
  switch (dimension) {
    case 'ratio':
    case 'count':
      return 'a plain number';
    case 'angle':
      return 'an angle';
    default:
      return `a ${dimension}`;
  }
};

function units({ dimension }: LimitEntry): string {
  const symbols = unitsFor(writtenDimension(dimension)).map(({ symbol }) => symbol);
  return symbols.length === 0 ? 'without unit' : `in ${symbols.join(', ')}`;
}

export const limitUnit: Rule = {
  name: 'limit-unit',
  group: 'records',
  level: 'error',
  summary: 'a limit that is not a single value of its own dimension',
  sources: [],
  explanation:
    'Every limit has a dimension: a share, a length, an angle, a time, a mass, a voltage, or a plain number. A practice block sets it as one value of that dimension, in any unit. A value of another dimension, an estimate or a range is not a limit. It is ignored, and the value that would apply without it still applies.',
  limitations: 'No exceptions.',
  appliesTo: [],
  acceptable: false,
  examples: [
    {
      title: 'Dimensions and forms',
      text: `practice "Office limits"
  limit strength-loss 30 %
    because "busy play area under most crowns"
  limit wall-ratio 30 % #! stated
    because "busy play area under most crowns"
  limit drone-height 100 kg #! stated
    because "slip of the pen"
  limit lean 30..35 deg #! stated
    because "undecided"
  limit cut-diameter 3 in
    because "fewer large wounds"
  limit cumulative-dose 0
    because "no second cut within the years"
`,
    },
  ],
  check: () => NOTHING,
  checkWorkspace,
};
