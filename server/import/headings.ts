/**
 * By what words tables head their columns, in the languages of the towns that publish theirs. Long because it is one
 * table, read as one. Common practice: the headings of published tables (San Francisco, New York, Portland, Baltimore,
 * Melbourne, Paris, Wien, Berlin, Zürich, Torino, Madrid, Buenos Aires, Barcelona, Amsterdam, Lisboa) and, from memory,
 * the terms of the trade.
 */

import type { PlainMeaning, Size } from './meanings.ts';

export type Language = 'en' | 'de' | 'fr' | 'es' | 'it' | 'nl' | 'pt';

type Phrases = Partial<Readonly<Record<Language, string>>>;

/** Phrases are separated by commas; the order of the words in one has no meaning. */
export const HEADINGS: Partial<Readonly<Record<Size | PlainMeaning, Phrases>>> = {
  name: { en: 'name, nickname, tree name', de: 'baumname', fr: 'nom', es: 'nombre', nl: 'naam', pt: 'nome' },
  species: {
    en: 'species, botanical, botanical name, scientific, scientific name, latin, latin name, species latin, species botanical, species scientific, species name, taxon, botanic, sci nm, spc latin, genus species',
    de: 'art, baumart, botanischer name, botanisch, lateinischer name, wissenschaftlicher name, gattung art, art botanisch, art bot, art latein, art lateinisch, baumart lateinisch, baumart botanisch, baumart lat, baumname lateinisch, baumname lat, baumnamelat',
    fr: 'espece, nom scientifique, nom latin, nom botanique, nom espece latin, essence, espece latine, taxon',
    es: 'especie, nombre cientifico, nom cientific, nombre botanico, especie arborea',
    it: 'specie, nome scientifico, nome botanico, specie botanica, specie arborea, nome latino',
    nl: 'soort, boomsoort, wetenschappelijke naam, latijnse naam, soortnaam, boomsoort wetenschappelijk, soortnaam latijn, soortnaam wetenschappelijk, wetenschappelijk',
    pt: 'especie, nome cientifico, nome botanico, nome latino, especie validada',
  },
  'common-name': {
    en: 'common, common name, species common, species common name, vernacular name, english name, popular name, kind of tree, spc common, name common',
    de: 'deutscher name, baumart deutsch, art deutsch, art dtsch, baumname deutsch, baumname deu, baumnamedeu, trivialname',
    fr: 'libelle francais, nom commun, nom francais, nom vernaculaire, nom usuel',
    es: 'nombre comun, nombre vulgar, nom castella, nombre popular',
    it: 'nome comune, nome volgare, nome volg, nome italiano',
    nl: 'nederlandse naam, soortnaam nederlands, soortnaam ned, boomsoort nederlands',
    pt: 'nome comum, nome vulgar, nome popular',
  },
  genus: {
    en: 'genus, genus name',
    de: 'gattung, baumgattung, gattung lateinisch, gattung latein, gattung lat, baumgattung lat, baumgattunglat',
    fr: 'genre',
    es: 'genero',
    it: 'genere',
    nl: 'geslacht, geslachtsnaam',
    pt: 'genero',
  },
  epithet: { en: 'epithet, specific epithet, species epithet', de: 'artepitheton' },
  cultivar: {
    en: 'cultivar, cultivar name, variety, variety or cultivar, variety cultivar',
    de: 'sorte, sortenname',
    fr: 'variete ou cultivar, variete, cultivar',
    es: 'variedad, cultivar',
    it: 'varieta, cultivar',
    nl: 'cultivar, ras',
    pt: 'variedade, cultivar',
  },
  dbh: {
    en: 'dbh, diameter, diameter at breast height, trunk diameter, stem diameter, tree diameter, tree dbh, diam, breast height diameter, trunk dbh, trunk diam, diam breast',
    de: 'stammdurchmesser, bhd, brusthohendurchmesser, durchmesser, stamm durchmesser',
    fr: 'diametre, diametre du tronc, diametre tronc, diametre a hauteur de poitrine, dhp, tronc diam',
    es: 'diametro, dap, diametro del tronco, diametro tronco, diametro altura pecho, diametro a la altura del pecho, diametro normal',
    it: 'diametro, diametro tronco, diametro del fusto, diametro fusto, diametro a petto d uomo, diametro tronco a 130 cm',
    nl: 'stamdiameter, diameter stam, stam diameter, diameter, borsthoogtediameter',
    pt: 'dap, diametro, diametro do tronco, diametro a altura do peito, diametro tronco',
  },
  girth: {
    en: 'girth, circumference, trunk circumference, stem circumference, trunk girth, stem girth, girth at breast height, gbh, cbh, circumference at breast height, circ',
    de: 'stammumfang, stammumfg, umfang, stamm umfang, brusthohenumfang',
    fr: 'circonference, circonference du tronc, circonference tronc, circonference a 1m, circonference a 130',
    es: 'perimetro, perimetro del tronco, perimetro tronco, circunferencia, perimetro altura pecho',
    it: 'circonferenza, circonferenza tronco, circonferenza del fusto, circonferenza fusto, cr circonf',
    nl: 'stamomtrek, omtrek, stam omtrek',
    pt: 'perimetro, perimetro do tronco, perimetro a altura do peito, pap, cap, circunferencia',
  },
  height: {
    en: 'height, tree height, total height, overall height, ht, tree ht',
    de: 'baumhohe, hohe, gesamthohe, wuchshohe, baum hohe',
    fr: 'hauteur, hauteur totale, haut tot, hauteur arbre',
    es: 'altura, altura total, altura arbol, altura del arbol, alto',
    it: 'altezza, altezza totale, altezza albero, altezza pianta',
    nl: 'hoogte, boomhoogte, actuele hoogte',
    pt: 'altura, altura total, altura arvore',
  },
  crown: {
    en: 'crown, crown spread, spread, canopy spread, crown width, crown diameter, canopy diameter, canopy width, average spread, mean crown spread, mean spread, tree spread',
    de: 'kronendurchmesser, krone, kronenbreite, kronedurch, kronen durchmesser, krone durchmesser',
    fr: 'diametre couronne, diametre houppier, envergure, diametre de la couronne, largeur houppier',
    es: 'diametro copa, diametro de copa, diametro de la copa, ancho copa, anchura copa',
    it: 'diametro chioma, diametro della chioma, ampiezza chioma, larghezza chioma',
    nl: 'kroondiameter, kroonbreedte, diameter kroon',
    pt: 'diametro copa, diametro da copa, largura copa',
  },
  'crown-radius': {
    en: 'crown radius, spread radius, canopy radius',
    de: 'kronenradius',
    fr: 'rayon couronne, rayon houppier',
    es: 'radio copa',
    it: 'raggio chioma',
    nl: 'kroonstraal',
    pt: 'raio copa',
  },
  'crown-base': {
    en: 'crown base, height of crown base, crown base height, crown clearance, height to crown',
    de: 'kronenansatz, kronenansatzhohe',
    fr: 'hauteur base houppier, hauteur premiere branche',
    es: 'altura base copa, altura copa, altura de la primera rama',
    it: 'altezza inserzione chioma, altezza impalcatura',
    nl: 'opkroonhoogte, takvrije hoogte',
    pt: 'altura base copa, altura primeira bifurcacao',
  },
  latitude: {
    en: 'latitude, lat, decimal latitude, y lat, shape lat, lat dd, point latitude, latitude wgs84, lat wgs84',
    de: 'breite, breitengrad, geografische breite',
    es: 'latitud, latitud wgs84',
    it: 'latitudine',
    nl: 'breedtegraad',
  },
  longitude: {
    en: 'longitude, lon, long, lng, decimal longitude, x lon, shape lng, shape lon, x long, lon dd, longitude wgs84, lon wgs84',
    de: 'lange, langengrad, geografische lange',
    es: 'longitud, longitud wgs84',
    it: 'longitudine',
    nl: 'lengtegraad',
  },
  position: {
    en: 'position, coordinates, lat lon, lat long, lat lng, latitude longitude, location lat lon, location 1, geo point, geo point 2d, geopoint, geom, the geom, geometry, shape, wkt, point, coordinate, location',
    de: 'koordinaten, geometrie',
    fr: 'coordonnees, coordonnees gps, geo shape, geolocalisation',
    es: 'coordenadas, geolocalizacion',
    it: 'coordinate',
    nl: 'coordinaten, geometrie, geopunt',
    pt: 'coordenadas, posicao',
  },
  easting: {
    en: 'x, easting, eastings, x coord, x coordinate, x sp, coord x, point x',
    de: 'rechtswert, ostwert, hochwert x, x koordinate',
    fr: 'x l93, x lambert93',
    es: 'x etrs89, coordenada x, utm x, x utm, coord x',
    it: 'coordinata x, est',
    nl: 'x rd, rd x, x coordinaat',
    pt: 'coordenada x',
  },
  northing: {
    en: 'y, northing, northings, y coord, y coordinate, y sp, coord y, point y',
    de: 'hochwert, nordwert, y koordinate',
    fr: 'y l93, y lambert93',
    es: 'y etrs89, coordenada y, utm y, y utm, coord y',
    it: 'coordinata y, nord',
    nl: 'y rd, rd y, y coordinaat',
    pt: 'coordenada y',
  },
  age: {
    en: 'age, age class, life stage, stage of life, maturity, age group, age description, life phase',
    de: 'altersklasse, entwicklungsstufe, altersphase, lebensphase',
    fr: 'stade developpement, stade de developpement, stadedev, stade dev',
    es: 'edad, clase edad, estado maduracion, fase vital',
    it: 'eta, classe eta, stadio di sviluppo, fase vegetativa',
    nl: 'leeftijd, leeftijdsklasse, levensfase, ontwikkelingsfase',
    pt: 'idade, classe idade, fase',
  },
  vigor: {
    en: 'vigor, vigour, condition, health, vitality, tree condition, physiological condition, tree health, health condition',
    de: 'vitalitat, zustand, vitalitatsstufe, baumzustand, vitalitatsklasse',
    fr: 'vigueur, etat sanitaire, vitalite, etat',
    es: 'vigor, estado, estado sanitario, estado fitosanitario, vitalidad, estado general',
    it: 'vigoria, stato, condizione, stato vegetativo, vitalita, condizioni, stato fitosanitario, condizioni vegetative',
    nl: 'conditie, vitaliteit, conditieklasse, gezondheid',
    pt: 'vigor, estado, estado fitossanitario, vitalidade, condicao',
  },
  status: {
    en: 'status, tree status, alive, standing',
    de: 'status, baumstatus',
    fr: 'statut, mort',
    es: 'situacion',
    it: 'situazione',
    pt: 'situacao',
  },
  planted: {
    en: 'planted, date planted, plant date, planting date, plant year, planting year, year planted, date of planting, planted date, year of planting, installation date, install date',
    de: 'pflanzjahr, pflanzdatum, pflanzung, gepflanzt, gepflanzt im jahr',
    fr: 'annee plantation, date plantation, annee de plantation, date de plantation, dateplantation, anneedeplantation',
    es: 'fecha plantacion, fecha de plantacion, data plantacio, ano plantacion',
    it: 'anno impianto, data impianto, anno di impianto, data di impianto, anno piantumazione, data piantumazione, data di piantumazione',
    nl: 'plantjaar, plantdatum, jaar van aanleg, aanlegjaar, jaarvanaanleg',
    pt: 'data plantacao, ano plantacao, data de plantacao, data de plantio, ano de plantio',
  },
  felled: {
    en: 'felled, date felled, felling date, removal date, date removed, removed date',
    de: 'falldatum, fallung, gefallt',
    fr: 'date abattage',
    es: 'fecha tala',
    it: 'data abbattimento',
    nl: 'kapdatum',
    pt: 'data abate',
  },
  inspected: {
    en: 'inspection, inspection date, inspected, date inspected, last inspection, last inspected, date of inspection, inventory date, survey date, date surveyed, date inventoried, date inven, surveyed, last inspection date, assessed, assessment date, date of survey',
    de: 'kontrolldatum, letzte kontrolle, kontrolle, aufnahmedatum, erfassungsdatum, inspektionsdatum',
    fr: 'date controle, date mesure, date de mesure, date diagnostic, date inspection, date de releve',
    es: 'fecha inspeccion, fecha revision, fecha de inspeccion, fecha relevamiento',
    it: 'data ispezione, data rilievo, data controllo, data valutazione',
    nl: 'inspectiedatum, controledatum, inspectie, laatste inspectie',
    pt: 'data inspecao, data vistoria, data de inspecao',
  },
  job: {
    en: 'recommended work, recommended maintenance, maintenance recommendation, recommendation, work required, work needed, recommended action, proposed work, maintenance need, primary maintenance, work recommended',
    de: 'massnahme, massnahmen, pflegemassnahme, empfohlene massnahme',
    fr: 'travaux, intervention, travaux preconises, preconisation, intervention preconisee',
    es: 'actuacion, tratamiento, actuacion recomendada, intervencion',
    it: 'intervento, interventi, intervento consigliato, tipo intervento',
    nl: 'maatregel, maatregelen, advies, boommaatregel',
    pt: 'intervencao, intervencao recomendada, manejo',
  },
  count: {
    en: 'number of trees, no of trees, tree count, trees count, quantity, qty',
    de: 'anzahl, anzahl baume, baumanzahl',
    fr: 'nombre d arbres, nb arbres, nombre arbres, effectif',
    es: 'unidades, cantidad, numero de arboles, n de arboles, unidades 2023',
    it: 'numero alberi, quantita, numero di alberi',
    nl: 'aantal, aantal bomen',
    pt: 'quantidade, numero de arvores',
  },
  note: {
    en: 'note, notes, comment, comments, remark, remarks, observation, observations, tree notes',
    de: 'bemerkung, bemerkungen, anmerkung, notiz, hinweis',
    fr: 'remarque, remarques, observation, commentaire',
    es: 'observaciones, observacion, notas, comentarios',
    it: 'note, osservazioni, commenti',
    nl: 'opmerking, opmerkingen',
    pt: 'observacoes, notas, obs',
  },
};

const list = (words: string): readonly string[] => words.trim().split(/\s+/);

/** Words that add nothing to what a heading of these kinds says. */
export const FILLERS: readonly string[] = list(
  `tree trees baum baume arbre arbres arbol arboles arbolado albero alberi boom bomen arvore arvores plant pianta
  of the a an at in and or for on q fk der die das des im am le la les du de d l el los las del en y e il lo di da della
  van het een o do dos das em no na current actual aktuell actuelle actuel actuele measured estimated est approx
  approximate gemessen mesure field deg degrees decimal dd wgs84 wgs epsg`,
);

/** Behind a heading: the column says in words what another says as a code. */
export const IN_WORDS: readonly string[] = list(
  'txt text label desc description bezeichnung beschreibung libelle',
);

/** Words of the trunk, which say no more than that of a diameter. */
export const TRUNK: readonly string[] = list('trunk stem stamm tronc tronco fusto stam bole breast bh');

/** Headings with one of these are of something else than the tree: no tree is as high as the wire above it. */
export const QUALIFIERS: readonly string[] = list(
  `wire wires cable line lines utility utilities overhead pole pit well cavity cavities hollow decay site sites sidewalk
  pavement owner owners ownership caretaker block plot space spaces planting grow growspace growing neighborhood
  neighbourhood neighborhoods neighbourhoods suburb borough district districts ward zone area street streets road
  avenue park parks address place location city town county state country zip zipcode postcode hood precinct quarter lot
  parcel curb kerb median lawn stump limb limbs branch branches root roots soil leaf fruit flower seed bark bud building
  house sign light lamp guard stake grate well grating fence wall target user volunteer staff creator created editor
  edited contractor inspector surveyor photo image picture url link file price cost value amount carbon storage
  sequestration runoff pollution benefit benefits energy budget max maximum min minimum mature expected potential target
  due scheduled planned expiry interval frequency previous prior former old new replacement proposed required native family order color colour phone email group client
  contract department agency council supervisor police fire school elevation altitude slope crossing clearance sight
  offset distance width length depth nearest adjacent neighbour neighbor next
  strasse str bezirk stadtteil ortsteil gebiet objekt eigentumer standort baumscheibe pflanzscheibe leitung flache
  gelande wurzel ast stumpf nachbar adresse ort plz
  rue quartier arrondissement domanialite lieu emplacement fosse revetement secteur proprietaire racine branche
  souche voie commune ville
  calle barrio distrito acera vereda alcorque plantera manzana comuna parque ubicacion nivel ancho propietario raiz rama
  via quartiere circoscrizione proprieta marciapiede sito aiuola radice ramo ceppaia zona comune localita
  straat wijk buurt eigenaar beheerder standplaats boomspiegel gebied wortel tak stobbe plaats locatie
  rua bairro freguesia passeio caldeira local morada raiz ramo cepo
  familie famille familia famiglia`,
);
