/**
 * The genera of the trade in temperate towns. How well a genus walls off decay follows the list of the
 * University of Florida, which was read; where that is silent, from memory, the German practice of cut
 * diameters. The two disagree about beech: the list, which calls it poor, holds. Of lime it says that some
 * call it poor.
 */

import type { Genus } from './traits.ts';

type Differs = Partial<Pick<Genus, 'compartmentalisation' | 'compartmentalisationSource' | 'hostOf'>>;

const kind =
  (leaf: Genus['leaf'], cycle: Genus['cycle'], palm = false) =>
  (name: string, common: string, family: string, differs: Differs = {}): Genus => ({
    name,
    common,
    family,
    leaf,
    cycle,
    compartmentalisation: 'unknown',
    hostOf: [],
    palm,
    ...differs,
  });

const deciduousBroadleaf = kind('broadleaved', 'deciduous');
const evergreenBroadleaf = kind('broadleaved', 'evergreen');
const deciduousConifer = kind('needleleaved', 'deciduous');
const evergreenConifer = kind('needleleaved', 'evergreen');
const palm = kind('broadleaved', 'evergreen', true);

const strongUF = {
  compartmentalisation: 'strong',
  compartmentalisationSource: 'uf-compartmentalisation',
} as const;
const strongZTV = { compartmentalisation: 'strong', compartmentalisationSource: 'ztv-baumpflege' } as const;
const weakCODIT = {
  compartmentalisation: 'weak',
  compartmentalisationSource: 'dujesiefken-liese-2008',
} as const;
const weakUF = {
  compartmentalisation: 'weak',
  compartmentalisationSource: 'uf-compartmentalisation',
} as const;
const weakZTV = { compartmentalisation: 'weak', compartmentalisationSource: 'ztv-baumpflege' } as const;

/** Broadleaved genera and palms, then conifers (and ginkgo, whose leaves are broad), each by name. */
export const genera: readonly Genus[] = [
  evergreenBroadleaf('Acacia', 'wattle', 'Fabaceae', { ...strongUF }),
  deciduousBroadleaf('Acer', 'maple', 'Sapindaceae', { ...weakZTV }),
  deciduousBroadleaf('Aesculus', 'horse-chestnut', 'Sapindaceae', { ...weakUF }),
  deciduousBroadleaf('Ailanthus', 'tree of heaven', 'Simaroubaceae'),
  deciduousBroadleaf('Albizia', 'silk tree', 'Fabaceae'),
  deciduousBroadleaf('Alnus', 'alder', 'Betulaceae'),
  deciduousBroadleaf('Amelanchier', 'serviceberry', 'Rosaceae', { hostOf: ['fire blight'] }),
  evergreenBroadleaf('Arbutus', 'madrone', 'Ericaceae'),
  deciduousBroadleaf('Asimina', 'pawpaw', 'Annonaceae'),
  deciduousBroadleaf('Betula', 'birch', 'Betulaceae', { ...weakUF }),
  evergreenBroadleaf('Brachychiton', 'bottle tree', 'Malvaceae', { ...weakUF }),
  deciduousBroadleaf('Carpinus', 'hornbeam', 'Betulaceae', { ...strongUF }),
  deciduousBroadleaf('Carya', 'hickory', 'Juglandaceae'),
  deciduousBroadleaf('Castanea', 'chestnut', 'Fagaceae'),
  deciduousBroadleaf('Catalpa', 'catalpa', 'Bignoniaceae'),
  deciduousBroadleaf('Celtis', 'hackberry', 'Cannabaceae', { ...weakUF }),
  evergreenBroadleaf('Ceratonia', 'carob', 'Fabaceae'),
  deciduousBroadleaf('Cercidiphyllum', 'katsura', 'Cercidiphyllaceae'),
  deciduousBroadleaf('Cercis', 'redbud', 'Fabaceae', { ...weakUF }),
  evergreenBroadleaf('Chrysolepis', 'chinquapin', 'Fagaceae'),
  evergreenBroadleaf('Cinnamomum', 'camphor', 'Lauraceae'),
  deciduousBroadleaf('Cladrastis', 'yellowwood', 'Fabaceae'),
  deciduousBroadleaf('Cornus', 'dogwood', 'Cornaceae'),
  deciduousBroadleaf('Corylus', 'hazel', 'Betulaceae'),
  evergreenBroadleaf('Corymbia', 'bloodwood', 'Myrtaceae'),
  deciduousBroadleaf('Cotinus', 'smoketree', 'Anacardiaceae'),
  deciduousBroadleaf('Crataegus', 'hawthorn', 'Rosaceae', { hostOf: ['fire blight'] }),
  deciduousBroadleaf('Davidia', 'handkerchief tree', 'Nyssaceae'),
  deciduousBroadleaf('Diospyros', 'persimmon', 'Ebenaceae'),
  evergreenBroadleaf('Eriobotrya', 'loquat', 'Rosaceae', { hostOf: ['fire blight'] }),
  evergreenBroadleaf('Eucalyptus', 'gum', 'Myrtaceae', { ...weakUF }),
  deciduousBroadleaf('Eucommia', 'hardy rubber tree', 'Eucommiaceae'),
  deciduousBroadleaf('Fagus', 'beech', 'Fagaceae', { ...weakUF }),
  evergreenBroadleaf('Ficus', 'fig', 'Moraceae', { ...weakUF }),
  deciduousBroadleaf('Frangula', 'buckthorn', 'Rhamnaceae'),
  deciduousBroadleaf('Fraxinus', 'ash', 'Oleaceae', { ...weakCODIT }),
  evergreenBroadleaf('Geijera', 'wilga', 'Rutaceae'),
  deciduousBroadleaf('Gleditsia', 'honeylocust', 'Fabaceae', { ...strongUF }),
  deciduousBroadleaf('Gymnocladus', 'coffeetree', 'Fabaceae'),
  deciduousBroadleaf('Halesia', 'silverbell', 'Styracaceae'),
  evergreenBroadleaf('Ilex', 'holly', 'Aquifoliaceae'),
  deciduousBroadleaf('Jacaranda', 'jacaranda', 'Bignoniaceae'),
  deciduousBroadleaf('Juglans', 'walnut', 'Juglandaceae', { ...strongUF }),
  deciduousBroadleaf('Koelreuteria', 'golden rain tree', 'Sapindaceae'),
  deciduousBroadleaf('Laburnum', 'golden chain', 'Fabaceae'),
  deciduousBroadleaf('Lagerstroemia', 'crape myrtle', 'Lythraceae', { ...strongUF }),
  evergreenBroadleaf('Laurus', 'laurel', 'Lauraceae'),
  evergreenBroadleaf('Ligustrum', 'privet', 'Oleaceae'),
  deciduousBroadleaf('Liquidambar', 'sweetgum', 'Altingiaceae'),
  deciduousBroadleaf('Liriodendron', 'tulip tree', 'Magnoliaceae'),
  evergreenBroadleaf('Lophostemon', 'brush box', 'Myrtaceae'),
  deciduousBroadleaf('Maclura', 'Osage-orange', 'Moraceae'),
  deciduousBroadleaf('Magnolia', 'magnolia', 'Magnoliaceae'),
  deciduousBroadleaf('Malus', 'apple', 'Rosaceae', { ...weakUF, hostOf: ['fire blight'] }),
  deciduousBroadleaf('Mespilus', 'medlar', 'Rosaceae', { hostOf: ['fire blight'] }),
  evergreenBroadleaf('Metrosideros', 'pohutukawa', 'Myrtaceae'),
  deciduousBroadleaf('Morus', 'mulberry', 'Moraceae'),
  evergreenBroadleaf('Notholithocarpus', 'tanoak', 'Fagaceae'),
  deciduousBroadleaf('Nothofagus', 'southern beech', 'Nothofagaceae'),
  deciduousBroadleaf('Nyssa', 'tupelo', 'Nyssaceae'),
  evergreenBroadleaf('Olea', 'olive', 'Oleaceae'),
  deciduousBroadleaf('Ostrya', 'hophornbeam', 'Betulaceae'),
  deciduousBroadleaf('Oxydendrum', 'sourwood', 'Ericaceae'),
  deciduousBroadleaf('Parrotia', 'ironwood', 'Hamamelidaceae'),
  deciduousBroadleaf('Paulownia', 'princess tree', 'Paulowniaceae'),
  evergreenBroadleaf('Persea', 'bay', 'Lauraceae', { ...weakUF }),
  deciduousBroadleaf('Phellodendron', 'cork tree', 'Rutaceae'),
  palm('Phoenix', 'date palm', 'Arecaceae'),
  evergreenBroadleaf('Photinia', 'photinia', 'Rosaceae', { hostOf: ['fire blight'] }),
  deciduousBroadleaf('Pistacia', 'pistache', 'Anacardiaceae'),
  evergreenBroadleaf('Pittosporum', 'pittosporum', 'Pittosporaceae'),
  deciduousBroadleaf('Platanus', 'plane', 'Platanaceae', { ...strongZTV }),
  deciduousBroadleaf('Populus', 'poplar', 'Salicaceae', { ...weakUF }),
  deciduousBroadleaf('Prunus', 'cherry', 'Rosaceae', { ...weakUF, hostOf: ['silver leaf'] }),
  deciduousBroadleaf('Pterocarya', 'wingnut', 'Juglandaceae'),
  deciduousBroadleaf('Pyrus', 'pear', 'Rosaceae', { hostOf: ['fire blight'] }),
  deciduousBroadleaf('Quercus', 'oak', 'Fagaceae', { ...strongZTV, hostOf: ['oak wilt'] }),
  deciduousBroadleaf('Rhus', 'sumac', 'Anacardiaceae'),
  deciduousBroadleaf('Robinia', 'locust', 'Fabaceae'),
  palm('Sabal', 'palmetto', 'Arecaceae'),
  deciduousBroadleaf('Salix', 'willow', 'Salicaceae', { ...weakUF }),
  deciduousBroadleaf('Sambucus', 'elder', 'Adoxaceae'),
  deciduousBroadleaf('Sassafras', 'sassafras', 'Lauraceae'),
  evergreenBroadleaf('Schinus', 'pepper tree', 'Anacardiaceae', { ...weakUF }),
  deciduousBroadleaf('Sorbus', 'rowan', 'Rosaceae', { hostOf: ['fire blight'] }),
  deciduousBroadleaf('Stewartia', 'stewartia', 'Theaceae'),
  deciduousBroadleaf('Styphnolobium', 'pagoda tree', 'Fabaceae'),
  deciduousBroadleaf('Styrax', 'snowbell', 'Styracaceae'),
  palm('Syagrus', 'queen palm', 'Arecaceae'),
  deciduousBroadleaf('Syringa', 'lilac', 'Oleaceae'),
  deciduousBroadleaf('Tilia', 'lime', 'Malvaceae', { ...strongUF }),
  deciduousBroadleaf('Toona', 'Chinese mahogany', 'Meliaceae'),
  palm('Trachycarpus', 'windmill palm', 'Arecaceae'),
  deciduousBroadleaf('Triadica', 'tallow tree', 'Euphorbiaceae'),
  deciduousBroadleaf('Ulmus', 'elm', 'Ulmaceae', { hostOf: ['Dutch elm disease'] }),
  evergreenBroadleaf('Umbellularia', 'California bay', 'Lauraceae'),
  palm('Washingtonia', 'fan palm', 'Arecaceae'),
  deciduousBroadleaf('Zelkova', 'zelkova', 'Ulmaceae'),
  evergreenConifer('Abies', 'fir', 'Pinaceae'),
  evergreenConifer('Araucaria', 'monkey puzzle', 'Araucariaceae'),
  evergreenConifer('Calocedrus', 'incense-cedar', 'Cupressaceae'),
  evergreenConifer('Callitropsis', 'yellow-cedar', 'Cupressaceae'),
  evergreenConifer('Cedrus', 'cedar', 'Pinaceae'),
  evergreenConifer('Chamaecyparis', 'false cypress', 'Cupressaceae'),
  evergreenConifer('Cryptomeria', 'Japanese cedar', 'Cupressaceae'),
  evergreenConifer('Cunninghamia', 'China-fir', 'Cupressaceae'),
  evergreenConifer('Cupressus', 'cypress', 'Cupressaceae'),
  deciduousBroadleaf('Ginkgo', 'ginkgo', 'Ginkgoaceae'),
  evergreenConifer('Hesperocyparis', 'western cypress', 'Cupressaceae'),
  evergreenConifer('Juniperus', 'juniper', 'Cupressaceae'),
  deciduousConifer('Larix', 'larch', 'Pinaceae'),
  deciduousConifer('Metasequoia', 'dawn redwood', 'Cupressaceae'),
  evergreenConifer('Picea', 'spruce', 'Pinaceae'),
  evergreenConifer('Pinus', 'pine', 'Pinaceae', { hostOf: ['pine bark beetles'] }),
  evergreenConifer('Podocarpus', 'podocarp', 'Podocarpaceae'),
  evergreenConifer('Pseudotsuga', 'Douglas-fir', 'Pinaceae'),
  evergreenConifer('Sciadopitys', 'umbrella-pine', 'Sciadopityaceae'),
  evergreenConifer('Sequoia', 'redwood', 'Cupressaceae'),
  evergreenConifer('Sequoiadendron', 'giant sequoia', 'Cupressaceae'),
  deciduousConifer('Taxodium', 'baldcypress', 'Cupressaceae'),
  evergreenConifer('Taxus', 'yew', 'Taxaceae'),
  evergreenConifer('Thuja', 'arborvitae', 'Cupressaceae'),
  evergreenConifer('Torreya', 'torreya', 'Taxaceae'),
  evergreenConifer('Tsuga', 'hemlock', 'Pinaceae'),
];
