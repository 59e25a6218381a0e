/**
 * Terms of tree work in Spanish. Those without a source are from memory: no publication that was read has them, and nobody
 * who works in the language has confirmed them.
 */

interface Term {
  readonly english: string;
  readonly term: string;
  /** The publication in which it was read. */
  readonly source?: string;
}

/** What was read of each: the beginning of the text, as a search returned it. */
const SOURCES = {
  niosh: 'NIOSH 92-106 (1992), Prevención de caídas y electrocuciones durante la poda de árboles',
  column: 'Somos OSHA, podemos ayudar: Corte y remoción de árboles (newspaper column, El Mañana)',
  puertoRico: 'Puerto Rico OSHO, Spanish translation of 79 FR 20316 (29 CFR 1910 and 1926, 2014)',
  crane: 'Análisis de la OSHA 1926.1408, Seguridad en operaciones con líneas eléctricas (capcot.com.mx)',
  safeAtWork: 'Seguridad al podar árboles (safeatworkca.com)',
  ubu: 'Universidad de Burgos, Caídas de altura durante la poda de árboles',
  western: 'Western Arborist, Winter 2022, Spanish pages',
} as const;

export const ES_TERMS: readonly Term[] = [
  { english: 'tree pruning', term: 'poda de árboles', source: SOURCES.niosh },
  { english: 'felling', term: 'tala', source: SOURCES.niosh },
  { english: 'tree removal', term: 'remoción de árboles', source: SOURCES.column },
  { english: 'crew', term: 'cuadrilla', source: SOURCES.niosh },
  { english: 'tree worker', term: 'podador', source: SOURCES.niosh },
  { english: 'qualified', term: 'calificado' },
  { english: 'power line', term: 'línea eléctrica', source: SOURCES.column },
  { english: 'energized', term: 'energizada', source: SOURCES.crane },
  { english: 'de-energized', term: 'desenergizada', source: SOURCES.crane },
  { english: 'grounded', term: 'puesta a tierra', source: SOURCES.crane },
  {
    english: 'minimum approach distance',
    term: 'distancia mínima de acercamiento',
    source: SOURCES.puertoRico,
  },
  { english: 'job briefing', term: 'sesión de instrucciones de trabajo', source: SOURCES.puertoRico },
  { english: 'to climb (a tree)', term: 'subir', source: SOURCES.safeAtWork },
  { english: 'aerial lift', term: 'plataforma elevadora', source: SOURCES.ubu },
  { english: 'wildlife biologist', term: 'biólogo de vida silvestre', source: SOURCES.western },
  { english: 'overhead', term: 'aérea' },
  { english: 'drop zone', term: 'zona de caída' },
  { english: 'rigging', term: 'aparejo' },
  { english: 'rigging line', term: 'cuerda de descenso' },
  { english: 'rigging block', term: 'polea' },
  { english: 'sling', term: 'eslinga' },
  { english: 'working load limit', term: 'límite de carga de trabajo' },
  { english: 'shock load', term: 'carga de choque' },
  { english: 'spar', term: 'tronco de anclaje' },
  { english: 'muster point', term: 'punto de reunión' },
  { english: 'nesting season', term: 'temporada de anidación' },
  { english: 'roost', term: 'refugio' },
  { english: 'work order', term: 'orden de trabajo' },
  { english: 'crown reduction, thinning, raising', term: 'reducción, aclareo, elevación de copa' },
  { english: 'pollarding', term: 'trasmoche' },
  { english: 'topping', term: 'desmoche' },
  { english: 'included bark', term: 'corteza incluida' },
  { english: 'decay', term: 'pudrición' },
  { english: 'root collar', term: 'cuello de la raíz' },
  { english: 'line clearance', term: 'despeje de líneas' },
];
