/** The crew's checks before the first cut, from the record of the tree and the work. */

import { isOpen } from '../assess/evidence.ts';
import { permitFor } from '../assess/permits.ts';
import { meetsRoosts, roostFeatures } from '../assess/roosts.ts';
import { capital, quoted } from '../base/words.ts';
import { defectIn, lineIn, speciesIn } from './crew-words.ts';
import type { WorkOrder } from './data.ts';
import type { Speech } from './languages/language.ts';
import { positionWords } from './words.ts';

export function checklistOf(
  { entry: { tree, site, settings }, prescription }: WorkOrder,
  speech: Speech,
): readonly string[] {
  const { say, word, figure, date } = speech;
  const { exclusion, piece, methods, cutDiameter } = prescription;
  const permit = permitFor(tree, prescription);
  const position = tree.position ?? site?.position;
  const days = Math.floor(settings.limit('nest-check-validity').value);
  const roosts = meetsRoosts(prescription, roostFeatures(tree));
  const weak = tree.parts.filter(({ union }) => union && union.value !== 'sound');
  const defects = tree.defects.filter(isOpen);
  const targets = tree.targets.map(({ name }) => quoted(name.value)).join(', ');
  return [
    say('check tree', { tag: tree.tag.value, species: speciesIn(tree, speech) }),
    position ? say('check address at', { position: positionWords(position) }) : say('check address'),
    say('check nests', { days }),
    ...(roosts ? [say('check bats')] : []),
    ...(tree.protection || permit ? [permitCheck(permit)] : []),
    ...defects.map(defect => say('check defect', { defect: capital(defectIn(defect, speech)) })),
    ...weak.map(({ name, union }) => say('check union', { name: name.value, union: word(union!.value) })),
    ...tree.conductors.map(conductor =>
      say(conductor.dead ? 'check line off' : 'check line on', { line: lineIn(conductor, speech) }),
    ),
    exclusion
      ? say(targets === '' ? 'check drop zone' : 'check drop zone targets', {
          value: figure(exclusion),
          targets,
        })
      : say(targets === '' ? 'check area' : 'check area targets', { targets }),
    ...(piece ? [say('check rigging')] : []),
    ...(cutDiameter
      ? [
          say(methods.length > 0 ? 'check cuts by' : 'check cuts', {
            value: figure(cutDiameter),
            methods: methods.map(({ value }) => word(value)).join(', '),
          }),
        ]
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
