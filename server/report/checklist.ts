/** The crew's checks before the first cut, from the record of the tree and the work. */

import { isOpen } from '../assess/evidence.ts';
import { permitFor } from '../assess/permits.ts';
import { meetsRoosts, roostFeatures } from '../assess/roosts.ts';
import { grouped } from '../base/grouped.ts';
import { capital, quoted } from '../base/words.ts';
import { defectIn, isOffFor, keepIn, lineIn, positionIn, speciesIn } from './crew-words.ts';
import type { WorkOrder } from './data.ts';
import type { Speech } from './languages/language.ts';

/** Figures of the work; where the check asks for stricter ones, those. */
export interface Bounds {
  readonly zone: string | undefined;
  readonly cuts: string | undefined;
}

export function checklistOf(
  order: WorkOrder,
  { zone, cuts }: Bounds,
  on: number,
  speech: Speech,
): readonly string[] {
  const { say, word, date, listed } = speech;
  const { entry, prescription } = order;
  const { tree, site, settings } = entry;
  const { piece, methods } = prescription;
  const permit = permitFor(tree, prescription);
  const position = positionIn(tree, site, speech) ?? say('position none');
  const days = Math.floor(settings.limit('nest-check-validity').value);
  const roosts = meetsRoosts(prescription, roostFeatures(tree));
  const weak = grouped(
    tree.parts.filter(({ union }) => union && union.value !== 'sound'),
    // A pair has one union, which both stems state.
    ({ name, union, unionWith }) => [union!.value, ...[name.value, unionWith?.value ?? ''].sort()].join('\n'),
  );
  const defects = tree.defects.filter(isOpen);
  const targets = tree.targets.map(({ name }) => quoted(name.value)).join(', ');
  return [
    say('check tree', { tag: tree.tag.value, species: speciesIn(tree, speech) }),
    say('check address', { position }),
    say('check nests', { days }),
    ...(roosts ? [say('check bats')] : []),
    ...(tree.protection || permit ? [permitCheck(permit)] : []),
    ...tree.inspections.flatMap(({ date: day, unseen }) =>
      unseen.map(({ value }) => say('check unseen', { what: value, date: date(day.value) })),
    ),
    ...defects.map(defect => say('check defect', { defect: capital(defectIn(defect, speech)) })),
    ...[...weak.values()].map(parts =>
      say('check union', {
        name: listed(parts.map(({ name }) => name.value)),
        union: word(parts[0]!.union!.value),
      }),
    ),
    ...tree.conductors.map(conductor =>
      say(isOffFor(order, conductor, on) ? 'check line off' : 'check line on', {
        line: lineIn(conductor, speech),
        value: keepIn(conductor, entry, speech),
      }),
    ),
    [
      zone === undefined ? say('check area') : say('check drop zone', { value: zone }),
      ...(targets === '' ? [] : [say('check closed', { targets })]),
    ].join(' '),
    ...(piece ? [say('check rigging')] : []),
    ...(cuts !== undefined
      ? [`${[say('check cuts', { value: cuts }), ...methods.map(({ value }) => word(value))].join('; ')}.`]
      : []),
    say('check weather'),
  ];

  function permitCheck(held: typeof permit): string {
    if (!held || held.number.value === 'none') return say('check permit any');
    const number = held.number.value;
    return held.until === undefined
      ? say('check permit', { number })
      : say('check permit until', { number, date: date(held.until) });
  }
}
