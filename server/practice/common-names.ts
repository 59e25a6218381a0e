/**
 * What people call trees and the animals and fungi on them, and the botanical or zoological names that it can mean where
 * they say it. From memory. The names of the tables of species and genera count beside those here, unless a row here has
 * the same name: one that means different trees to different people lists them all.
 */

import { birdGenera } from './birds-table.ts';
import { genera } from './genera.ts';
import { speciesTable } from './species.ts';

interface CommonName {
  readonly said: readonly string[];
  /** Several, where only the writer knows which. */
  readonly meant: readonly string[];
  /** In these countries it means this instead. */
  readonly within?: Readonly<Record<string, readonly string[]>>;
}

const one = (meant: string, ...said: readonly string[]): CommonName => ({ said, meant: [meant] });
const asked = (meant: readonly string[], ...said: readonly string[]): CommonName => ({ said, meant });

/** Names that mean other trees in other countries. */
const BY_COUNTRY: readonly CommonName[] = [
  {
    said: ['sycamore'],
    meant: ['Acer pseudoplatanus', 'Platanus occidentalis', 'Platanus racemosa'],
    within: {
      US: ['Platanus occidentalis', 'Platanus racemosa'],
      GB: ['Acer pseudoplatanus'],
      IE: ['Acer pseudoplatanus'],
    },
  },
  {
    said: ['lime', 'lime tree'],
    meant: ['Tilia', 'Citrus'],
    within: { GB: ['Tilia'], IE: ['Tilia'] },
  },
  {
    said: ['mountain ash'],
    meant: ['Sorbus', 'Eucalyptus regnans'],
    within: { US: ['Sorbus'], CA: ['Sorbus'], GB: ['Sorbus aucuparia'], AU: ['Eucalyptus regnans'] },
  },
  {
    said: ['poplar'],
    meant: ['Populus', 'Liriodendron tulipifera'],
    within: { GB: ['Populus'], IE: ['Populus'] },
  },
  {
    said: ['aspen'],
    meant: ['Populus tremuloides', 'Populus grandidentata', 'Populus tremula'],
    within: {
      US: ['Populus tremuloides', 'Populus grandidentata'],
      CA: ['Populus tremuloides', 'Populus grandidentata'],
      GB: ['Populus tremula'],
    },
  },
  {
    said: ['white birch'],
    meant: ['Betula papyrifera', 'Betula pendula', 'Betula pubescens'],
    within: { GB: ['Betula pendula', 'Betula pubescens'] },
  },
  {
    said: ['plane', 'plane tree'],
    meant: ['Platanus'],
    within: { GB: ['Platanus × hispanica', 'Platanus orientalis'] },
  },
];

/** Names of several trees of one country. */
const OF_SEVERAL: readonly CommonName[] = [
  asked(['Quercus alba', 'Quercus garryana', 'Quercus lobata'], 'white oak'),
  asked(['Quercus rubra', 'Quercus falcata', 'Quercus'], 'red oak'),
  asked(['Quercus velutina', 'Quercus kelloggii'], 'black oak'),
  asked(
    [
      'Quercus virginiana',
      'Quercus agrifolia',
      'Quercus wislizeni',
      'Quercus chrysolepis',
      'Quercus fusiformis',
    ],
    'live oak',
  ),
  asked(['Quercus cerris', 'Quercus laevis'], 'turkey oak'),
  asked(['Quercus douglasii', 'Quercus'], 'blue oak'),
  asked(
    ['Cedrus', 'Thuja plicata', 'Thuja occidentalis', 'Juniperus virginiana', 'Calocedrus decurrens'],
    'cedar',
  ),
  asked(['Thuja plicata', 'Juniperus virginiana'], 'red cedar'),
  asked(['Thuja occidentalis', 'Chamaecyparis thyoides'], 'white cedar'),
  asked(['Sequoia sempervirens', 'Sequoiadendron giganteum', 'Metasequoia glyptostroboides'], 'redwood'),
  asked(['Sequoiadendron giganteum', 'Sequoia sempervirens'], 'sequoia'),
  asked(['Pinus strobus', 'Pinus monticola'], 'white pine'),
  asked(['Pinus ponderosa', 'Pinus echinata', 'Pinus taeda'], 'yellow pine'),
  asked(['Pinus nigra', 'Pinus thunbergii'], 'black pine'),
  asked(['Pinus mugo', 'Pinus monticola'], 'mountain pine'),
  asked(['Abies alba', 'Abies amabilis'], 'silver fir'),
  asked(['Abies magnifica', 'Pseudotsuga menziesii'], 'red fir'),
  asked(['Laurus nobilis', 'Prunus laurocerasus', 'Umbellularia californica'], 'laurel'),
  asked(['Laurus nobilis', 'Umbellularia californica', 'Persea borbonia'], 'bay', 'bay tree', 'sweet bay'),
  asked(['Robinia pseudoacacia', 'Gleditsia triacanthos'], 'locust'),
  asked(['Ostrya virginiana', 'Carpinus caroliniana', 'Parrotia persica'], 'ironwood'),
  asked(['Eucalyptus', 'Liquidambar styraciflua', 'Nyssa sylvatica'], 'gum', 'gum tree'),
  asked(['Eucalyptus globulus', 'Eucalyptus saligna'], 'blue gum'),
  asked(['Cupressus', 'Hesperocyparis', 'Taxodium distichum', 'Chamaecyparis'], 'cypress'),
  asked(['Prunus domestica', 'Prunus cerasifera'], 'plum'),
  asked(['Acer rubrum', 'Acer saccharinum'], 'soft maple'),
  asked(['Celtis occidentalis', 'Celtis'], 'hackberry'),
  asked(['Populus alba', 'Liriodendron tulipifera'], 'white poplar'),
  asked(['Salix babylonica', 'Salix × sepulcralis'], 'weeping willow'),
  asked(['Juglans nigra', 'Juglans californica'], 'black walnut'),
  asked(['Acacia melanoxylon', 'Prunus spinosa'], 'blackwood'),
  asked(['Sorbus', 'Eucalyptus'], 'ash mountain'),
  asked(['Prunus serrulata', 'Prunus'], 'japanese cherry', 'flowering cherry', 'ornamental cherry'),
  asked(['Platanus × hispanica', 'Platanus occidentalis'], 'buttonwood'),
];

/** Other names of one tree. */
const OTHERS: readonly CommonName[] = [
  one('Pseudotsuga menziesii', 'doug fir', 'dougfir', 'oregon pine'),
  one('Acer macrophyllum', 'oregon maple', 'broadleaf maple'),
  one('Acer saccharum', 'hard maple', 'rock maple'),
  one('Acer negundo', 'manitoba maple', 'ashleaf maple'),
  one('Acer campestre', 'hedge maple'),
  one('Acer platanoides', 'crimson king maple'),
  one('Quercus garryana', 'garry oak', 'oregon oak'),
  one('Quercus robur', 'pedunculate oak', 'common oak'),
  one('Quercus petraea', 'durmast oak'),
  one('Quercus ilex', 'holly oak', 'evergreen oak'),
  one('Quercus macrocarpa', 'burr oak'),
  one('Fagus sylvatica', 'copper beech', 'common beech'),
  one('Fraxinus excelsior', 'common ash'),
  one('Carpinus betulus', 'common hornbeam'),
  one('Taxus baccata', 'common yew', 'english yew'),
  one('Ilex aquifolium', 'english holly', 'common holly'),
  one('Juglans regia', 'english walnut', 'persian walnut'),
  one('Crataegus monogyna', 'english hawthorn'),
  one('Tilia', 'linden'),
  one('Tilia americana', 'basswood', 'american linden'),
  one('Tilia cordata', 'littleleaf linden'),
  one('Tilia tomentosa', 'silver linden'),
  one('Populus', 'cottonwood'),
  one('Populus nigra', 'lombardy poplar'),
  one('Aesculus', 'buckeye'),
  one('Arbutus menziesii', 'madrone', 'madrona'),
  one('Umbellularia californica', 'california laurel', 'oregon myrtle', 'myrtlewood', 'pepperwood'),
  one('Liriodendron tulipifera', 'tulip poplar', 'yellow poplar', 'tuliptree'),
  one('Nyssa sylvatica', 'black gum', 'blackgum', 'sour gum'),
  one('Lagerstroemia indica', 'crepe myrtle', 'crapemyrtle'),
  one('Albizia julibrissin', 'mimosa'),
  one('Pyrus calleryana', 'bradford pear'),
  one('Prunus avium', 'sweet cherry', 'gean'),
  one('Malus', 'crab apple', 'crabapple', 'flowering crab'),
  one('Cedrus deodara', 'deodar cedar', 'himalayan cedar'),
  one('Cedrus atlantica', 'blue atlas cedar'),
  one('Cedrus libani', 'lebanon cedar'),
  one('Callitropsis nootkatensis', 'alaska cedar', 'alaska yellow cedar', 'nootka cypress'),
  one('Chamaecyparis lawsoniana', 'lawson cypress'),
  one('Cupressus sempervirens', 'italian cypress'),
  one('Pinus nigra', 'austrian pine', 'corsican pine'),
  one('Pinus sylvestris', 'scotch pine', 'scots fir'),
  one('Pinus contorta', 'shore pine'),
  one('Pinus ponderosa', 'ponderosa', 'western yellow pine'),
  one('Picea pungens', 'colorado spruce', 'colorado blue spruce'),
  one('Sequoia sempervirens', 'coastal redwood', 'california redwood'),
  one('Sequoiadendron giganteum', 'giant redwood', 'sierra redwood', 'wellingtonia'),
  one('Tsuga canadensis', 'canadian hemlock'),
  one('Ginkgo biloba', 'maidenhair tree'),
];

/** Birds by what people call them; a genus where it has several. */
const BIRDS: readonly CommonName[] = [
  one('Colaptes', 'flicker'),
  one('Colaptes auratus', 'northern flicker'),
  one('Haliaeetus leucocephalus', 'bald eagle'),
  one('Aquila chrysaetos', 'golden eagle'),
  asked(['Haliaeetus leucocephalus', 'Aquila chrysaetos'], 'eagle'),
  one('Pandion haliaetus', 'osprey'),
  one('Bubo virginianus', 'great horned owl'),
  one('Buteo jamaicensis', 'red tailed hawk', 'redtail'),
  one('Strix varia', 'barred owl'),
  {
    said: ['robin'],
    meant: ['Turdus migratorius', 'Erithacus rubecula'],
    within: { US: ['Turdus migratorius'], CA: ['Turdus migratorius'], GB: ['Erithacus rubecula'] },
  },
  one('Corvus', 'crow', 'raven'),
  one('Dryocopus pileatus', 'pileated woodpecker', 'pileated'),
  one('Columba palumbus', 'wood pigeon', 'woodpigeon'),
  one('Sitta', 'nuthatch'),
  one('Poecile', 'chickadee'),
];

/** Fruiting bodies by what people call them. */
const FUNGI: readonly CommonName[] = [
  one('Ganoderma', 'artist conk', 'artists conk'),
  one('Laetiporus', 'chicken of the woods', 'sulphur shelf', 'sulfur shelf'),
  one('Armillaria', 'honey fungus', 'honey mushroom'),
  one('Kretzschmaria deusta', 'brittle cinder'),
  one('Meripilus giganteus', 'giant polypore'),
  one('Pleurotus', 'oyster mushroom'),
];

/** Letters alone: `box elder`, `boxelder` and `Box-Elder` are one name. */
const key = (name: string): string =>
  name
    .toLowerCase()
    .replace(/\bgray\b/g, 'grey')
    .replace(/[^\p{L}]/gu, '');

const rowsByKey = (rows: readonly CommonName[]): ReadonlyMap<string, CommonName> =>
  new Map(rows.flatMap(row => row.said.map(said => [key(said), row] as const)));

const TREES: ReadonlyMap<string, CommonName> = new Map([
  ...rowsByKey(genera.map(({ name, common }) => one(name, common))),
  ...rowsByKey(speciesTable.map(({ botanical, common }) => one(botanical, common))),
  ...rowsByKey([...OTHERS, ...OF_SEVERAL, ...BY_COUNTRY]),
]);

const ORGANISMS: ReadonlyMap<string, CommonName> = new Map([
  ...rowsByKey(birdGenera.map(({ genus, common }) => one(genus, common))),
  ...rowsByKey([...BIRDS, ...FUNGI]),
]);

function named(
  names: ReadonlyMap<string, CommonName>,
  name: string,
  region: string | undefined,
): readonly string[] {
  const letters = key(name);
  const row = names.get(letters) ?? names.get(letters.replace(/s$|trees?$/, ''));
  return row ? (row.within?.[region?.split('-')[0] ?? ''] ?? row.meant) : [];
}

/** What trees a common name can mean in a region: none, one, or several of which the writer has to choose. */
export const treesCalled = (name: string, region?: string): readonly string[] => named(TREES, name, region);

/** The same of birds and fungi. */
export const organismsCalled = (name: string, region?: string): readonly string[] =>
  named(ORGANISMS, name, region);

/** Rows for the printed page. */
export const commonNames: readonly CommonName[] = [
  ...BY_COUNTRY,
  ...OF_SEVERAL,
  ...OTHERS,
  ...BIRDS,
  ...FUNGI,
];
