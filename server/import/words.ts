/**
 * Words by which tables say what the notation has words for, in the languages of towns. Common practice: the words of
 * published tables and, from memory, of the trade. A word that is not here stays a note of its tree.
 */

import { folded } from './heading.ts';

/** Meant word, then what is written for it. */
type Words = Readonly<Record<string, string>>;

const byWord = (words: Words): ReadonlyMap<string, string> =>
  new Map(
    Object.entries(words).flatMap(([meant, said]) =>
      [meant, ...said.split(',')].map(word => [folded(word).trim(), meant] as const),
    ),
  );

/** Health in general is the vigor of a tree, as far as three steps go; a number or letter may run either way. */
const VIGOR = byWord({
  good: 'excellent, very good, normal, healthy, gut, sehr gut, gesund, vital, bon, bonne, tres bon, sain, vigoureux, bueno, buena, muy bueno, sano, buono, buona, ottimo, ottima, discreto buono, sano, goed, zeer goed, normaal, gezond, bom, boa, otimo, saudavel, muito bom',
  fair: 'moderate, average, medium, mittel, massig, befriedigend, leicht geschadigt, geschwacht, moyen, moyenne, regular, medio, discreto, discreta, sufficiente, mediocre, normale, matig, redelijk, voldoende, razoavel, medio',
  poor: 'bad, very poor, low, declining, dying, critical, serious decline, schlecht, stark geschadigt, absterbend, mauvais, mauvaise, deperissant, tres mauvais, malo, mala, muy malo, deficiente, cattivo, cattiva, scarso, scarsa, pessimo, deperiente, slecht, zeer slecht, onvoldoende, kwijnend, mau, ma, ruim, pessimo, fraco',
  dead: 'dead tree, standing dead, tot, abgestorben, mort, morte, muerto, muerta, seco, morto, morta, secco, dood, dode boom, afgestorven',
});

const AGE = byWord({
  young:
    'juvenile, newly planted, new, sapling, j, jung, jungbaum, jugendphase, jeune, jeune arbre, joven, juvenil, primera edad, giovane, giovanile, jong, jeugdfase, jovem, young tree',
  'semi-mature':
    'semi mature, semimature, early mature, middle aged, middle age, intermediate, ja, reifungsphase, jeune adulte, semi adulte, semiadulto, semi maturo, halfwas, halfvolwassen',
  mature:
    'fully mature, adult, a, alterungsphase, erwachsen, adulte, mature, maduro, adulto, maturo, adulta, volwassen, volgroeid',
  'over-mature':
    'over mature, overmature, late mature, old, m, senescent, uberaltert, mature senescent, senescente, viejo, senescent',
  veteran: 'ancient, monumental, veteran tree, uralt, veteranenbaum',
});

/** What a status column may say; `alive` needs no line. */
const STATUS = byWord({
  alive:
    'live, living, active, existing, in place, lebend, vorhanden, stehend, vivant, en place, vivo, existente, presente, levend, aanwezig, tree, a, planted',
  dead: 'dead tree, tot, abgestorben, mort, muerto, morto, dood',
  gone: 'removed, felled, cut, cut down, stump, vacant, empty, retired, inactive, proposed, planned, planting site, gefallt, entfernt, stumpf, leer, nachzupflanzen, abattu, souche, vide, talado, tocon, vacio, abbattuto, ceppaia, vuoto, geveld, gekapt, stobbe, leeg, abatido, cepo, vazio',
});

/** What is to be done, where one word of the notation says it; a table says no more of it. */
const JOB = byWord({
  fell: 'remove, removal, fell tree, remove tree, tree removal, fallen, fallung, abattage, abattre, tala, talar, abbattimento, abbattere, vellen, kappen, abate, remover, corte',
  clean:
    'crown clean, crown cleaning, deadwood, remove deadwood, deadwooding, prune clean, totholzentfernung, totholz entfernen, dood hout verwijderen, rimonda del secco, limpieza',
  raise:
    'crown raise, crown lift, crown lifting, raise crown, lichtraumprofil, lichtraumprofil herstellen, remontee de couronne, opkronen',
  reduce:
    'crown reduction, reduce crown, kroneneinkurzung, reduction de couronne, reduccion de copa, riduzione della chioma, kroonreductie',
  thin: 'crown thin, crown thinning, kronenauslichtung, eclaircie, aclareo, diradamento, uitdunnen',
  pollard: 'pollarding, kopfschnitt, tetard, trasmocho, capitozzatura, knotten',
  watch: 'monitor, monitoring, beobachten, surveiller, surveillance, seguimiento, monitoraggio, monitoren',
  keep: 'retain, no action, no work, none required, erhalten, conserver, mantener, nessun intervento, geen maatregel, manter',
});

export type WordKind = 'vigor' | 'age' | 'status' | 'job';
const TABLES: Readonly<Record<WordKind, ReadonlyMap<string, string>>> = {
  vigor: VIGOR,
  age: AGE,
  status: STATUS,
  job: JOB,
};
export const isWordKind = (kind: string): kind is WordKind => kind in TABLES;

/** What a cell of such a column means; remarks in brackets are left out. */
export function meantBy(kind: WordKind, cell: string): string | undefined {
  const word = folded(cell)
    .replace(/\s*[([].*$/, '')
    .replace(/[^\p{L}\p{N}]+/gu, ' ')
    .trim();
  return TABLES[kind].get(word);
}

/** What stands in the place of a name where there is no tree, and how people are told. */
const APART: readonly { readonly words: RegExp; readonly what: string }[] = [
  {
    what: 'a stump',
    words:
      /^(?:stump|stumps|tree stump|(?:baum)?stumpf|stubben|souche|tocon|ceppaia|ceppo|stobbe|stronk|cepo|toco)\b/,
  },
  {
    what: 'a place without a tree',
    words:
      /^(?:vacant|vacancy|empty|no tree|not planted|planting (?:site|space|spot)|potential (?:site|planting)|available|unplanted|removed|tree removed|leer|unbesetzt|leerstelle|baumscheibe leer|nachpflanzung|emplacement (?:libre|vide)|vide|sans arbre|alcorque vacio|vacio|huco|plantera vacia|vuoto|vuota|posto vuoto|sito vuoto|leeg|lege plek|geen boom|vazio|caldeira vazia|sem arvore)\b/,
  },
  {
    what: 'a sum',
    words:
      /^(?:(?:grand |sub)?totals?|sum|summe|gesamt|gesamtsumme|insgesamt|somme|total general|totale|totaal|otros|others|sonstige|autres|altri|overige|outros)$/,
  },
  {
    what: 'no single tree',
    words: /^(?:brush|hedge|hecke|haie|seto|siepe|haag|group of trees|baumgruppe)$/,
  },
];
/** A dead tree may stand for years and fall on someone: it stays a tree. */
const DEAD =
  /^(?:dead(?: tree)?|tree,? dead|toter baum|abgestorben|arbre mort|mort|arbol murto|murto|albero morto|morto|dode boom|dood|arvore morta)$/;

const plain = (cell: string): string =>
  folded(cell)
    .replace(/["'’‘()[\]]/g, ' ')
    .replace(/\s+/g, ' ')
    .trim();

/** Why a row with this name is no tree. */
export const apartBy = (cell: string): string | undefined => {
  const text = plain(cell);
  return APART.find(({ words }) => words.test(text))?.what;
};
export const isDeadTree = (cell: string): boolean => DEAD.test(plain(cell));
