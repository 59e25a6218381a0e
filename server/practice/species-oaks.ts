/**
 * Oaks, with their group: the red group dies of oak wilt within weeks. Heights and diameters in m are ceilings, from
 * memory.
 */

import { type SpeciesRow, species } from './traits.ts';

export const oakSpecies: readonly SpeciesRow[] = [
  species('Quercus acutissima', 'sawtooth oak', 28, 1.6, { oakGroup: 'ring-cup' }),
  species('Quercus agrifolia', 'coast live oak', 30, 4, {
    oakGroup: 'red',
    cycle: 'evergreen',
    rootLoss: 'good',
  }),
  species('Quercus alba', 'white oak', 46, 3, { oakGroup: 'white', rootLoss: 'poor' }),
  species('Quercus bicolor', 'swamp white oak', 36, 2.4, { oakGroup: 'white', rootLoss: 'good' }),
  species('Quercus cerris', 'Turkey oak', 42, 2.8, { oakGroup: 'ring-cup' }),
  species('Quercus chrysolepis', 'canyon live oak', 32, 4, { oakGroup: 'golden', cycle: 'evergreen' }),
  species('Quercus coccinea', 'scarlet oak', 38, 1.9, { oakGroup: 'red' }),
  species('Quercus douglasii', 'blue oak', 25, 2.2, { oakGroup: 'white', rootLoss: 'moderate' }),
  species('Quercus ellipsoidalis', 'northern pin oak', 28, 1.4, { oakGroup: 'red' }),
  species('Quercus engelmannii', 'Engelmann oak', 20, 1.8, { oakGroup: 'white', cycle: 'evergreen' }),
  species('Quercus falcata', 'southern red oak', 40, 2.6, { oakGroup: 'red' }),
  species('Quercus fusiformis', 'Texas live oak', 20, 2.4, { oakGroup: 'white', cycle: 'evergreen' }),
  species('Quercus gambelii', 'Gambel oak', 20, 1.6, { oakGroup: 'white' }),
  species('Quercus garryana', 'Oregon white oak', 36, 3, { oakGroup: 'white', rootLoss: 'good' }),
  species('Quercus geminata', 'sand live oak', 20, 1.5, {
    oakGroup: 'white',
    cycle: 'evergreen',
    compartmentalisation: 'strong',
  }),
  species('Quercus ilex', 'holm oak', 30, 3.2, { oakGroup: 'ring-cup', cycle: 'evergreen' }),
  species('Quercus imbricaria', 'shingle oak', 32, 1.5, { oakGroup: 'red' }),
  species('Quercus kelloggii', 'California black oak', 38, 3, { oakGroup: 'red', rootLoss: 'moderate' }),
  species('Quercus laevis', 'turkey oak of the American south', 25, 0.9, {
    oakGroup: 'red',
    compartmentalisation: 'weak',
  }),
  species('Quercus laurifolia', 'laurel oak', 36, 2.2, { oakGroup: 'red', compartmentalisation: 'weak' }),
  species('Quercus lobata', 'valley oak', 46, 3.6, { oakGroup: 'white', rootLoss: 'moderate' }),
  species('Quercus lyrata', 'overcup oak', 40, 2.2, { oakGroup: 'white' }),
  species('Quercus macrocarpa', 'bur oak', 46, 3.2, {
    oakGroup: 'white',
    compartmentalisation: 'strong',
    rootLoss: 'good',
  }),
  species('Quercus michauxii', 'swamp chestnut oak', 46, 2.4, { oakGroup: 'white' }),
  species('Quercus montana', 'chestnut oak', 36, 2.2, { oakGroup: 'white' }),
  species('Quercus muehlenbergii', 'chinkapin oak', 38, 2, { oakGroup: 'white' }),
  species('Quercus nigra', 'water oak', 38, 2.4, { oakGroup: 'red', compartmentalisation: 'weak' }),
  species('Quercus pagoda', 'cherrybark oak', 46, 2.6, { oakGroup: 'red' }),
  species('Quercus palustris', 'pin oak', 40, 2, {
    oakGroup: 'red',
    compartmentalisation: 'weak',
    rootLoss: 'good',
  }),
  species('Quercus petraea', 'sessile oak', 46, 4.2, { oakGroup: 'white', compartmentalisation: 'strong' }),
  species('Quercus phellos', 'willow oak', 42, 2.4, { oakGroup: 'red' }),
  species('Quercus robur', 'English oak', 44, 4.8, { oakGroup: 'white', compartmentalisation: 'strong' }),
  species('Quercus rubra', 'northern red oak', 46, 2.8, {
    oakGroup: 'red',
    compartmentalisation: 'strong',
    rootLoss: 'moderate',
  }),
  species('Quercus shumardii', 'Shumard oak', 46, 2.4, { oakGroup: 'red', compartmentalisation: 'weak' }),
  species('Quercus stellata', 'post oak', 34, 2.2, { oakGroup: 'white', rootLoss: 'poor' }),
  species('Quercus suber', 'cork oak', 25, 3, { oakGroup: 'ring-cup', cycle: 'evergreen' }),
  species('Quercus texana', 'Nuttall oak', 40, 2, { oakGroup: 'red' }),
  species('Quercus velutina', 'black oak', 42, 2.6, { oakGroup: 'red', rootLoss: 'moderate' }),
  species('Quercus virginiana', 'southern live oak', 28, 4.5, {
    oakGroup: 'white',
    cycle: 'evergreen',
    compartmentalisation: 'strong',
    rootLoss: 'good',
  }),
  species('Quercus wislizeni', 'interior live oak', 25, 2.4, { oakGroup: 'red', cycle: 'evergreen' }),
];
