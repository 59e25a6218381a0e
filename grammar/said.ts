/**
 * Words of the trade that the notation has another word for, or several. Which of several is meant is asked, and a word
 * that says less than those of the notation is never read as the milder one.
 */

export interface Said {
  readonly said: readonly string[];
  /** One, where nothing else can be meant. */
  readonly meant: readonly string[];
}

const one = (meant: string, ...said: readonly string[]): Said => ({ said, meant: [meant] });
const asked = (meant: readonly string[], ...said: readonly string[]): Said => ({ said, meant });

/** Whether a word can stand at its place is checked by reading the line again, so one list serves all fields. */
export const SAID: readonly Said[] = [
  asked(['root decay', 'decay'], 'butt rot', 'basal rot', 'base rot', 'basal decay', 'butt decay'),
  asked(['decay', 'cavity'], 'heart rot', 'heartrot', 'stem rot', 'rot', 'rotten'),
  one('root decay', 'root rot'),
  asked(['cavity', 'decay'], 'hollow'),
  asked(['cavity', 'woodpecker holes'], 'hole', 'holes'),
  one('fungus', 'conk', 'conks', 'bracket', 'brackets', 'mushroom', 'mushrooms', 'fruiting body', 'fungi'),
  one('dead wood', 'deadwood', 'dead branch', 'dead branches', 'dead limb', 'dead limbs', 'dieback'),
  one('hanger', 'hung limb', 'hanging limb', 'hung branch', 'hanging branch', 'widowmaker'),
  asked(['crack', 'weak union'], 'split', 'splitting'),
  one('included bark', 'bark inclusion', 'inclusion'),
  asked(['weak union', 'included bark'], 'codominant', 'co-dominant', 'codominant stems', 'tight fork'),
  one('girdling root', 'girdling roots'),
  asked(['root loss', 'root decay'], 'root damage', 'cut roots', 'severed roots'),
  one('loose bark', 'bark loose', 'lifting bark'),
  asked(['wound', 'canker'], 'scar', 'injury', 'lesion'),
  one('woodpecker holes', 'woodpecker hole', 'bird holes'),

  one('reduce', 'reduction', 'crown reduction'),
  one('thin', 'thinning', 'crown thinning', 'crown thin'),
  one('raise', 'raising', 'crown raise', 'crown raising', 'crown lift', 'crown lifting', 'lift', 'elevate'),
  one('clean', 'cleaning', 'crown clean', 'crown cleaning', 'deadwooding', 'deadwood removal'),
  asked(['clean', 'thin', 'reduce', 'raise'], 'prune', 'pruning', 'trim', 'trimming'),
  one('fell', 'felling', 'take down', 'cut down', 'takedown'),
  // A limb is removed too.
  asked(['fell', 'clean', 'reduce'], 'remove', 'removal'),
  one('cable', 'cabling'),
  one('brace', 'bracing'),
  one('prop', 'propping'),
  one('guy', 'guying'),
  one('watch', 'monitor', 'monitoring'),
  one('keep', 'retain', 'leave'),
  asked(['investigate', 'watch'], 'inspect', 'assess'),

  asked(['frequent', 'constant'], 'daily', 'every day', 'often', 'regular', 'regularly', 'busy'),
  asked(['occasional', 'frequent'], 'weekends', 'weekend', 'weekly', 'sometimes', 'seasonal'),
  one('rare', 'rarely', 'seldom'),
  one('frequent', 'frequently'),
  one('occasional', 'occasionally'),
  one('constant', 'constantly', 'always', '24/7'),

  asked(['good', 'fair'], 'normal', 'ok', 'okay', 'average', 'healthy'),
  asked(['poor', 'fair'], 'declining', 'low', 'weak', 'stressed'),
  asked(['poor', 'dead'], 'dying', 'very poor', 'moribund'),
  asked(['mature', 'over-mature', 'veteran'], 'old', 'aged', 'ancient'),
  one('over-mature', 'overmature', 'over mature'),
  one('semi-mature', 'semimature', 'semi mature'),

  one('drone', 'uav', 'aerial drone'),
  one('rope', 'climbing', 'climber', 'climb', 'ropes'),
  one('lift', 'bucket', 'bucket truck', 'aerial lift', 'cherry picker'),

  one('suspected', 'suspect', 'possible', 'probable', 'likely'),
  one('increasing', 'growing', 'worsening', 'progressing', 'opening up'),
  asked(['steady', 'healed'], 'stable', 'unchanged', 'old'),
  asked(['probable', 'possible'], 'likely'),
  asked(['improbable', 'possible'], 'unlikely'),
  asked(['moderate', 'medium'], 'med', 'mod'),
  one('medium', 'moderate'),
  one('moderate', 'medium'),
  asked(['immediate', 'high'], 'urgent', 'asap', 'emergency'),

  one('none', 'no nests', 'no nest', 'nothing', 'no bats', 'no sign', 'no signs'),
];

/** Words that begin a line elsewhere, and how the line begins here; `{}` stands for the rest of the line. */
export interface FirstWord {
  /** The heads whose lines they begin. */
  readonly below: readonly string[];
  readonly said: readonly string[];
  /** Several, where only the writer knows which. */
  readonly meant: readonly string[];
}

const TREE = ['tree', 'inspection'] as const;
const first = (
  below: readonly string[],
  meant: string | readonly string[],
  ...said: readonly string[]
): FirstWord => ({ below, said, meant: [meant].flat() });

/** Tried only where the word is none of the notation at its place, and used only where the rest then reads. */
export const FIRST_WORDS: readonly FirstWord[] = [
  first(TREE, 'height {}', 'ht', 'hgt', 'tree height', 'total height'),
  first(TREE, 'dbh {}', 'diam', 'dia', 'trunk diameter', 'diameter at breast height'),
  first(TREE, 'girth {}', 'circumference', 'circ', 'cbh', 'gbh', 'trunk circumference'),
  first(TREE, 'crown {} wide', 'spread', 'crown spread', 'canopy spread', 'crown width', 'canopy width'),
  first(TREE, ['crown {} wide', 'crown from {}'], 'canopy'),
  first(TREE, 'crown from {}', 'crown base', 'height of crown base', 'crown base height', 'clearance'),
  first(TREE, 'live-crown {}', 'lcr', 'live crown', 'live crown ratio'),
  first(TREE, 'lean {}', 'leans', 'leaning', 'tilt'),
  first(TREE, 'vigor {}', 'health', 'vitality'),
  first(TREE, ['dbh {}', 'girth {}'], 'size'),
  first(TREE, ['height {}', 'crown {} wide', 'girth {}'], 'extent'),
  // Condition is of structure too.
  first(TREE, ['vigor {}', 'note "condition {}"'], 'condition'),
  first(TREE, 'age {}', 'age class', 'maturity', 'life stage'),
  first(['tree'], 'position {}', 'gps', 'coordinates', 'coords', 'latlon', 'lat lon', 'location'),
  first(['tree'], 'formerly {}', 'old tag', 'previous tag', 'former tag'),
  first(['defect'], 'wall {}', 'shell', 'sound wall', 'shell wall', 'residual wall', 'thickness'),
  first(['defect'], 'on {}', 'located', 'location', 'loc', 'where'),
  // Of the stem or of a limb.
  first(['defect'], ['on trunk at {}', 'note "at {}"'], 'at'),
  first(['defect'], ['opening {}', 'diameter {}'], 'size'),
  first(['defect'], 'state {}', 'status', 'condition', 'trend'),
  first(['defect'], 'diameter {}', 'stem diameter', 'diam', 'dia'),
  first(['target'], 'distance {}', 'dist', 'away'),
  first(['target'], 'occupied {}', 'occupancy', 'use', 'used'),
  first(['target'], 'kind {}', 'type'),
  first(['prescription'], 'because {}', 'reason', 'why', 'objective'),
  first(['prescription'], 'between {}', 'window', 'when', 'dates'),
  first(['prescription'], 'dose {}', 'amount', 'pruning dose'),
  first(['prescription'], 'priority {}', 'urgency'),
  first(['nest check', 'bat check'], 'found {}', 'result', 'results', 'nest', 'nests'),
  first(
    ['inspection', 'nest check', 'bat check', 'prescription', 'work', 'follow-up'],
    'by {}',
    'inspector',
    'who',
    'arborist',
  ),
  first(
    ['tree', 'inspection', 'defect', 'target', 'prescription', 'stem', 'limb', 'work', 'site'],
    'note {}',
    'notes',
    'comment',
    'comments',
    'remark',
    'remarks',
    'obs',
    'observation',
    'observations',
  ),
  first(['tree', 'inspection', 'defect'], 'photo {}', 'picture', 'pic', 'image', 'img', 'photograph'),
  first(['site'], 'region {}', 'country'),
  first(['site'], 'client {}', 'customer', 'owner'),
];
