/** In Spanish, what the English sentences of rules and assessments mean for the crew. */

import type { OfOriginal } from './translation.ts';

export const ES_ORIGINAL: OfOriginal = {
  note: 'Ningún hablante nativo revisó esta traducción. Si no coincide con el inglés, siga lo más seguro y pregunte antes de empezar.',
  otherFinding:
    'La revisión señaló algo que no tiene traducción. Pida que le expliquen el texto en inglés antes de empezar.',
  closures: {
    nestingSeason: '{days}: temporada de anidación; hace falta una revisión de nidos reciente.',
    bans: '{days}: la ley prohíbe cortar.',
    nests: '{days}: hay un nido en uso, o que puede estarlo.',
    nearNests: '{days}: hay un nido en uso en otro árbol cercano.',
    pests: '{days}: semanas en que las heridas atraen una plaga o enfermedad.',
    bats: '{days}: por murciélagos (temporada de cría, refugio o revisión vencida).',
    permit: '{days}: el permiso ya venció.',
    notices: '{days}: corre el plazo del aviso a la autoridad.',
    stress: '{days}: el árbol todavía se recupera.',
    lines: '{days}: la línea eléctrica no está desenergizada, o los certificados de la cuadrilla vencieron.',
    stages: '{days}: la etapa anterior es demasiado reciente.',
    otherWork: '{days}: otro trabajo en el árbol va antes o queda demasiado cerca.',
    looks: '{days}: primero hay que hacer la investigación prevista.',
    deadline: '{days}: demasiado tarde; pida que lo adelanten.',
  },
  asks: {
    emergency:
      'Mantenga a todos lejos: una parte del árbol puede caer o romperse en cualquier momento. Decide una persona calificada.',
    season: 'Evite la temporada de anidación, o pida una revisión de nidos poco antes del trabajo.',
    nest: 'El nido en uso, o que puede estarlo, cierra el trabajo hasta que una revisión lo encuentre libre.',
    permit: 'El árbol está protegido: compruebe que hay un permiso válido que cubre este trabajo.',
    line: 'Hay una línea eléctrica aérea cerca: debe ir una cuadrilla calificada; avise a la compañía eléctrica.',
    bats: 'Pida una revisión de murciélagos: las cavidades pueden ser refugios.',
    weeks: 'Evite las semanas en que las heridas atraen una plaga o enfermedad.',
  },
  signs: {
    lean: 'la inclinación del árbol',
    soil: 'el suelo al pie del árbol',
    vigor: 'el árbol está muerto',
    union: 'una unión débil',
    'stem lean': 'la inclinación de un tronco',
    joined: 'cavidades que pueden estar unidas',
    'pull test': 'la prueba de tracción',
    strain: 'la prueba de tracción',
    'limb load': 'la carga de una rama',
    dieback: 'la copa que se muere',
  },
  missing: {
    'the mass or the sizes of the piece': 'la masa o las medidas de la pieza',
    'the drop': 'la altura de caída',
    'the length of rope under load': 'el largo de cuerda con carga',
    'the breaking strength of the line': 'la carga de rotura de la cuerda',
    'the breaking strength of the block': 'la carga de rotura de la polea',
    'the breaking strength of the sling': 'la carga de rotura de la eslinga',
    'the elongation of the line': 'el alargamiento de la cuerda',
    'the anchor of the block': 'el anclaje de la polea',
    'the strength of its wood': 'la resistencia de la madera',
    'the dbh of a single stem': 'el diámetro de un solo tronco',
    'the height of the tree': 'la altura del árbol',
    'the diameter of the trunk at the anchor': 'el diámetro del tronco en el anclaje',
  },
};

export const ES_FINDINGS: Readonly<Record<string, string>> = {
  // Electricity.
  'conductor-crew':
    'Hay una línea eléctrica cerca y no consta que la cuadrilla esté calificada para despejar líneas. No empiece: este trabajo es de una cuadrilla calificada.',
  'conductor-distance':
    'El trabajo queda, o puede quedar, más cerca de una línea eléctrica de lo permitido a quien no está calificado. No empiece hasta que la línea esté desenergizada y puesta a tierra o vaya una cuadrilla calificada.',
  'conductor-minimum-distance':
    'El trabajo queda, o puede quedar, más cerca de la línea de lo permitido incluso a una cuadrilla calificada. No empiece hasta que la línea esté desenergizada y puesta a tierra.',
  'conductor-second-worker':
    'Aquí la ley exige una segunda persona calificada. Nadie trabaja solo cerca de la línea ni en altura.',
  'conductor-voltage-missing':
    'No se conoce la tensión de la línea eléctrica. Trátela como la más peligrosa y pregunte a la compañía eléctrica antes de acercarse.',
  'crane-near-conductor':
    'La grúa puede acercarse a una línea eléctrica más de lo permitido. No la coloque hasta que la línea esté desenergizada y puesta a tierra o la distancia esté asegurada.',
  'fall-zone-conductor':
    'El árbol, o una pieza, puede caer sobre una línea eléctrica. No lo tale entero. Desmóntelo en piezas que no puedan acercarse a la línea, o espere a que esté desenergizada y puesta a tierra.',
  // Wildlife.
  'bat-check-missing':
    'Hay huecos o corteza suelta y nadie buscó murciélagos. No corte allí hasta que se revise.',
  'bat-check-stale':
    'La revisión de murciélagos ya no es válida para estos días. Hay que repetirla antes de cortar.',
  'bat-roost':
    'Hay, o puede haber, un refugio de murciélagos. No corte: está protegido y decide un biólogo de murciélagos con licencia.',
  'cutting-ban': 'La ley prohíbe cortar en estos días. No corte sin la excepción por escrito.',
  'empty-nest': 'El trabajo quita un nido vacío que la ley protege todo el año. No lo toque.',
  'nest-active':
    'Hay, o puede haber, un nido activo en este árbol. No empiece hasta que una revisión lo encuentre libre.',
  'nest-check-coarse':
    'La revisión no encontró nidos, pero desde donde se hizo era difícil verlos. Busque nidos de nuevo y más de cerca.',
  'nest-check-missing':
    'El trabajo cae en la temporada de anidación y nadie buscó nidos. No empiece sin una revisión de una persona calificada.',
  'nest-check-stale':
    'La revisión de nidos será demasiado vieja cuando empiece el trabajo. Hay que repetirla antes.',
  'nest-near':
    'En otro árbol cercano hay un nido en uso. No trabaje ni suba a menos distancia de la permitida.',
  'window-unstated':
    'El trabajo no tiene fechas y puede caer en una temporada cerrada. No empiece sin días fijados.',
  // Permits.
  'permit-expired': 'El permiso vence antes del trabajo, o ya venció. No empiece sin un permiso válido.',
  'permit-missing':
    'El árbol está protegido y no consta ningún permiso. No empiece sin el permiso en la mano.',
  'permit-needed': 'La ley del lugar exige un permiso o un aviso, y no consta ninguno. No empiece sin él.',
  'permit-scope': 'El permiso es para podar, no para talar. No tale.',
  'share-by-law': 'Se quitaría más copa de la que la ley permite sin permiso. No pase de lo permitido.',
  'wood-under-quarantine': 'Por una cuarentena, la madera tiene que quedarse donde está. No se la lleve.',
  // People, climbing, drop zone.
  'rating-below-figures':
    'La probabilidad de falla se calificó más baja de lo que dan las cifras. Trate el árbol como más peligroso.',
  'rating-incomplete': 'La evaluación del riesgo está incompleta. No dé el árbol por seguro.',
  'rating-mismatch':
    'La calificación del riesgo no corresponde a sus datos. Tome la más alta hasta que se aclare.',
  'rating-missing':
    'Hay personas o bienes bajo un árbol con defectos y nadie calificó el riesgo. No dé el árbol por seguro.',
  'target-without-distance':
    'No se sabe a qué distancia están las personas o los bienes expuestos. Mídala antes de cortar.',
  'target-without-occupancy':
    'No se sabe con qué frecuencia hay gente en la zona. Ciérrela como si siempre hubiera.',
  'unqualified-person':
    'No consta que quien prescribió o revisó esto estuviera calificado ese día. Pida confirmación antes de empezar.',
  'unsafe-to-climb':
    'Este árbol no es seguro para subir, o no se ha confirmado que lo sea, y no consta plataforma ni grúa. No suba ni se ancle a él.',
  'work-over-target-without-exclusion':
    'Debajo hay personas o bienes y la zona de caída falta o es demasiado pequeña. Ciérrela por completo antes del primer corte.',
  // Felling and rigging.
  'monolith-height': 'No se indica a qué altura queda el tronco en pie. Pregunte antes de cortar.',
  'piece-too-heavy':
    'La pieza más pesada pasa, o puede pasar, del límite de carga del equipo. Corte piezas más pequeñas o traiga otro equipo.',
  'removal-not-called-for':
    'Según las cifras, el árbol podría conservarse. Confirme que se tala antes de empezar.',
  'replacement-unstated': 'No se indica con qué se repone este árbol protegido. Pregunte antes de talar.',
  'rigging-overload':
    'La fuerza en el aparejo pasa, o puede pasar, de lo que resisten la cuerda, la polea, la eslinga o el tronco de anclaje. No baje la pieza así: piezas más pequeñas, sin tirones.',
  'salvage-unstated':
    'El tronco puede servir para madera y no se indica el largo de las trozas. Pregunte antes de trocear.',
  'stump-unstated': 'No se indica qué se hace con el tocón. Pregunte.',
  'takedown-unstated':
    'El árbol alcanza un edificio, una línea o un camino y no se indica cómo bajarlo. No tale hasta que se decida.',
  // Structure.
  'cable-too-low':
    'El cable quedaría demasiado bajo para sostener la unión. Pregunte la altura antes de instalarlo.',
  'cable-too-weak':
    'El cable puede ser demasiado débil para esa unión. No lo instale sin confirmar su resistencia.',
  'included-bark-union':
    'Una unión tiene corteza incluida y puede abrirse sin aviso. Nadie sube ni se ancla por encima de ella sin haberla examinado antes.',
  'joined-unproved':
    'Varias cavidades pueden estar unidas por dentro, y el tronco puede ser más débil de lo que parece. No se fíe de él.',
  'live-crown-ratio': 'Queda poca copa viva para la altura del árbol. No la eleve más.',
  'pull-test-inclination':
    'En la prueba de tracción las raíces cedieron más de lo normal. No suba hasta que una persona calificada lo decida.',
  'readings-contradict':
    'Las mediciones de una cavidad se contradicen. Tome la peor hasta que se mida de nuevo.',
  slenderness: 'El tronco es delgado para su altura y puede moverse mucho. Inspeccione antes de subir.',
  'strength-loss':
    'La cavidad o la pudrición quita, o puede quitar, demasiada resistencia. Siga lo que dice «Quién puede subir»; no se ancle a la parte dañada.',
  // Mitigation.
  'mitigation-late': 'El trabajo está previsto más tarde de lo que permite el peligro. Pida que se adelante.',
  'mitigation-missing':
    'Hay una señal de peligro sin trabajo prescrito para ella. Pregunte qué se hace con ella.',
  movement:
    'Una parte del árbol puede caer o romperse en cualquier momento. Mantenga a todos lejos, no suba y llame hoy mismo a una persona calificada.',
  'rating-unanswered':
    'El riesgo es alto o extremo y no hay trabajo prescrito para él. Mantenga lejos a la gente y no dé el árbol por seguro.',
  // Evidence.
  'drill-trace':
    'Una medición con taladro no se puede leer o no coincide con el expediente. No se fíe de ella.',
  'ground-only':
    'Un defecto en altura solo se vio desde el suelo. Examínelo de cerca antes de anclarse o cortar.',
  'inspection-before-storm':
    'Desde la última tormenta nadie inspeccionó el árbol. Inspecciónelo antes de subir.',
  'inspection-old': 'La última inspección es demasiado vieja. Inspeccione el árbol antes de subir.',
  'not-judged':
    'Hay señales que no se pudieron evaluar. Tómelas por peligrosas hasta que alguien las examine.',
  'photo-date-disagrees':
    'La fecha de una fotografía no coincide con el expediente. Compruebe que es este árbol.',
  'photo-missing': 'Falta una fotografía del expediente.',
  'photo-position-disagrees':
    'El lugar de una fotografía no coincide con el expediente. Compruebe que es este árbol.',
  'suspected-only': 'El defecto solo se sospecha. Compruébelo antes de cortar.',
  'work-on-old-inspection':
    'El trabajo se basa en una inspección demasiado vieja, o en ninguna. Inspeccione el árbol antes de empezar.',
  // Pruning.
  'age-or-vigor-unstated':
    'Falta la edad o el vigor del árbol: el límite de poda no se conoce. Pode lo mínimo.',
  'cumulative-dose':
    'Con las podas anteriores se quita demasiado follaje. No corte madera viva hasta que le confirmen por escrito cuánto.',
  'cut-diameter': 'Los cortes son más grandes de lo que esta especie puede cerrar. Haga cortes más pequeños.',
  'dose-mismatch': 'La cantidad de follaje no coincide con las medidas prescritas. Pregunte cuál vale.',
  'dose-unstated': 'No se indica cuánto follaje se quita. Pregunte antes de cortar.',
  'flush-cut': 'Se prescriben cortes al ras, que dañan el árbol. Corte fuera del collar de la rama.',
  'lateral-ratio':
    'Las ramas laterales que quedan son demasiado delgadas. Corte sobre una rama lateral más gruesa.',
  'lion-tailing': 'Se vaciaría el interior de la copa. No quite las ramas interiores.',
  'offset-beyond-season':
    'La reducción necesaria es más de lo permitido en una temporada. No corte madera viva hasta que le confirmen por escrito cuánto.',
  'pruning-season': 'En estas semanas las heridas atraen una enfermedad o insectos. No pode hasta que pasen.',
  'pruning-stressed': 'El árbol está debilitado. No quite madera viva hasta que se recupere.',
  'raise-too-far': 'La copa se elevaría demasiado. No pase de lo que se le confirme.',
  'reduction-and-thinning': 'Se prescriben reducción y aclareo a la vez. Pregunte cuál se hace.',
  'reduction-short-of-offset':
    'La reducción no basta para compensar la resistencia perdida. No dé el árbol por seguro después.',
  'screen-opened': 'El trabajo abriría una vista que debe quedar tapada. Pregunte antes de cortar.',
  'season-dose':
    'Se quita más follaje del que el árbol tolera en una temporada. No corte madera viva hasta que le confirmen por escrito cuánto.',
  'stress-ratio-after':
    'Después del trabajo, la parte hueca queda más cargada que un tronco sano. No dé el árbol por seguro.',
  topping: 'Se prescribe un desmoche, que daña el árbol. Pregunte antes de cortar.',
  'total-reduction': 'Quedaría muy poca copa para que el árbol viva. Pregunte antes de cortar.',
  'view-not-opened': 'El trabajo no abre la vista que se quiere abrir. Pregunte antes de cortar.',
  'wound-paint': 'Se prescribe pintar las heridas sin necesidad. Pregunte.',
};
