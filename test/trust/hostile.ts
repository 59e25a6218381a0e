/**
 * Texts that would be something else than text where something lets them: mark-up, links, formulas, orders to
 * terminals and build servers; and inventories that hold one of them in every place that takes a text.
 */

/** What a text of the notation may hold. */
export const HOSTILE_TEXTS: readonly string[] = [
  // HTML and SVG: breaks out of text, attributes, comments, style sheets and scripts.
  `<script>alert(1)</script>`,
  `"><script>alert(2)</script>`,
  `' onload='alert(3)' x='`,
  `" onfocus="alert(4)" autofocus x="`,
  `</title></style></script></textarea><img src=x onerror=alert(5)>`,
  `--><svg onload=alert(6)><!-- ]]><script>alert(7)</script><![CDATA[`,
  `</text></svg><foreignObject><body onload=alert(8)>`,
  `<iframe src="http://127.0.0.1:9/frame"></iframe><object data="http://127.0.0.1:9/o"></object>`,
  `<a href="javascript:alert(9)">x</a> javascript:alert(10)`,
  `<meta http-equiv="refresh" content="0;url=http://127.0.0.1:9/gone"><base href="http://127.0.0.1:9/">`,
  `<link rel="stylesheet" href="http://127.0.0.1:9/x.css"><style>@import url(http://127.0.0.1:9/y.css);</style>`,
  `<img src="http://127.0.0.1:9/i.png" srcset="http://127.0.0.1:9/j.png 2x"><video autoplay poster="http://127.0.0.1:9/v">`,
  `<form action="http://127.0.0.1:9/f"><button autofocus>x</button></form><template><script>alert(11)</script></template>`,
  `<math><mtext><table><mglyph><style><img src=x onerror=alert(12)>`,
  `&lt;script&gt;alert(13)&lt;/script&gt; &#60;b&#62; &#x3c;i&#x3e; &amp;lt;u&amp;gt; &colon;&sol;`,
  `{{constructor.constructor("alert(14)")()}} $\{alert(15)} #{alert(16)} {0} {1} %s %n`,
  // Markdown.
  `[x](command:workbench.action.terminal.new) ![x](http://127.0.0.1:9/p.png) [x]: http://127.0.0.1:9/r`,
  `<command:workbench.action.quit> <http://127.0.0.1:9/a> <a@example.org>`,
  'http://127.0.0.1:9/bare www.example.org ftp://example.org a@example.org example.org mailto:a@example.org',
  '`code` ``code`` ```js alert(17)``` ~~gone~~ ~~~ **bold** __bold__ *it* _it_ ***',
  '| a | b | \\| c \\\\| d',
  '# heading #12 GH-12 @team @org/team org/repo#7 !7 ~label %milestone &3 ^alert $5',
  '- [ ] task',
  '1. first',
  '2) second',
  '> quoted',
  '=== --- +++',
  '$x$ $$y$$ $(sync~spin) :smile: \\(z\\) \\<b\\> \\[x\\](command:y)',
  '[x][1] [^1] [1]: command:z ![x][1]',
  'data:image/svg+xml;base64,A ![x](data:image/svg+xml;base64,PHN2Zz4=) ](data:image/svg+xml;base64,A)',
  'ends in a backslash \\',
  '\\',
  // Spreadsheets.
  '=1+1',
  `=HYPERLINK("http://127.0.0.1:9/h","x")`,
  `+cmd|' /C calc'!A0`,
  `-2+3+cmd|' /C calc'!A0`,
  '@SUM(1)',
  `a;=cmd|' /C calc'!A0;b`,
  `a;"=cmd|' /C calc'!A0;b`,
  `a; '-1+1`,
  `'=1+1`,
  '\uFF1D1+1',
  // Calendars: the lines of a property, written out.
  'x\\nATTACH:http://127.0.0.1:9/c\\nBEGIN:VALARM;VALUE=URI:http://127.0.0.1:9/d, e; f: g',
  'END:VEVENT',
  // SARIF, XML and URIs.
  '%SRCROOT% %0d%0aX: y file:///etc/passwd ../../etc/passwd C:\\windows',
  '<!DOCTYPE x [<!ENTITY e SYSTEM "file:///etc/passwd">]>&e;',
  // Build servers.
  '::add-mask::x',
  `${'::stop-commands::y '.repeat(12)}z`,
  '##vso[task.setvariable variable=A]b ##[error]c ##teamcity[buildStop]',
  // JavaScript.
  '__proto__',
  'constructor',
  // Long, and without a place to break.
  'W'.repeat(400),
];

/** What only a comment, a spoilt line or the name of a file may hold: control characters, and what no eye sees. */
export const HOSTILE_MARKS: readonly string[] = [
  '\u001B[2J\u001B[31mred\u001B[0m',
  '\u001B]0;title\u0007',
  '\u001B]8;;http://127.0.0.1:9/osc\u001B\\link\u001B]8;;\u001B\\',
  '\u001B]52;c;eA==\u0007',
  '\u001BPq\u001B\\\u001B_x\u001B\\\u001B^y\u001B\\',
  '\u009B2J\u009D0;x\u009C\u0090q\u009C',
  'back\b\b\bspace \u007F delete \u0000 nul',
  'a\rb.wood:1:1: error: forged [forged]',
  'right\u202Eot tfel\u202C',
  'iso\u2066late\u2069d \u2067x\u2069',
  'zero\u200Bwidth\u2060joined\uFEFFbom',
  'soft\u00ADhyphen in\u2064visible \u{E0041}\u{E0042}tags',
  'joiner\u200Din latin, fill\u3164er',
  'line\u2028separator\u2029paragraph',
];

/**
 * Control characters but tabs and line ends, marks that turn the direction of text, and those that nobody sees, save
 * where a script has a use for them.
 */
export const HIDDEN =
  /[\0-\x08\x0B-\x1F\x7F-\x9F\xAD\u115F\u1160\u2028-\u202E\u2060-\u206F\u3164\uFEFF\uFFF9-\uFFFB]|[\x21-\x7E][\u200B-\u200D]|[\u{E0000}-\u{E00FF}\u{E01F0}-\u{E0FFF}]/u;

/** As a file may be called. */
const asFileName = (text: string): string => text.replace(/[/\0]/g, '_').slice(0, 120);

const quoted = (text: string): string => `"${text.replaceAll('"', '""')}"`;

/** An inventory that says so wherever the notation takes a text, and gives work to every form that shows it. */
export function inventoryOf(hostile: string, tag: string): string {
  const text = quoted(hostile);
  return `site ${text}
  region US-OR
  position 44.3, -122.8
  client ${text}
  firm ${text}
  assignment ${text}
  scope ${text}
  procedure ${text}
  limitation ${text}
  hospital ${text}
  quote ${text}, until 2026-12-31, tax 8 %
  muster ${text}
  ice 12 mm ${text}
  wind-factor 1.1 ${text}
  storm 2026-01-18 ${text}
  conservation-area ${text}
  note ${text}

person P-${tag} ${text}
  qualified consulting arborist
  certificate ${text}, until 2027-05-31
  note ${text}

crew C-${tag} ${text}
  members P-${tag}
  rope 400 lb
  note ${text}

practice ${text}
  note ${text}
  limit strength-loss 25 %
    because ${text}
  limit nest-check-validity 14 days
    because ${text}
    authorized by ${text}, until 2026-12-31
  season nesting 02-01..08-31
    because ${text}
  approach 20 ft up to 50 kV
    because ${text}
  severity live-crown-ratio note
    because ${text}

tree ${tag} ${text}
  species Acer macrophyllum
  position 44.31281, -122.87131
  dbh 41 in
  height 52 ft
  crown from 14 ft, 58 ft wide
  wind-factor 1.1 ${text}
  stressed by drought, since 2026-01-01
  protected by ${text} permit TR-1, until 2026-12-31, for pruning
  photo ${text}
  note ${text}
  note ${text}
  inspection 2026-03-14 from drone
    by P-${tag}
    unseen ${text}
    photo ${text}, from 55 ft
    note ${text}
  stem North
    from 9 ft
    union included bark
    note ${text}
  limb L1
    from 26 ft, facing E
    diameter 8 in
    length 24 ft
    union sound
    note ${text}
  stem West
    removed 2026-02-01 ${text}
  limb L2
    removed 2026-02-01 ${text}
  defect A cavity
    on trunk at 18 ft, facing SW
    diameter 26 in
    opening 9 in wide, 14 in tall
    wall 2..4 in at SW
    photo ${text}
    note ${text}
  defect B cavity
    on trunk at 19 ft, facing S
    diameter 26 in
    wall 3 in at SW
  defect C crack
    on trunk at 20 ft
    closed 2026-03-14 ${text}
  joined A, B suspected
    note ${text}
  support S1 cable
    holds North
    removed 2026-03-14 ${text}
    note ${text}
  drilling 2026-03-14 of A
    trace ${text} at N
    note ${text}
  tomogram 2026-03-14 of A
    note ${text}
  pull test 2026-03-14
    note ${text}
  target ${text}
    distance 12 ft
    occupied frequent
    note ${text}
  target "Shed"
    removed 2026-02-01 ${text}
  risk ${text} from A
    because ${text}
    failure probable
    impact medium
    consequences severe
    rating moderate
    note ${text}
  conductor ${text}
    voltage 12.5 kV
    distance 3..5 ft
    agreed 6 ft ${text}
    note ${text}
  conductor "Old line"
    removed 2026-02-01 ${text}
  nest check 2026-05-20 from ground
    by P-${tag}
    found active Colaptes auratus at 30 ft
    photo ${text}, from 25 ft
    note ${text}
  bat check 2026-05-20 from ground
    by P-${tag}
    found none
    note ${text}
  view ${text}
    eye 14 ft, 40 ft away
    hide 0..24 ft, 140 ft beyond
    note ${text}
  prescription R1 reduce
    height 52 ft to 46 ft
    spread 58 ft to 52 ft
    dose 18 %
    between 2026-09-15..2026-11-30
    because ${text}
    by P-${tag}
    with C-${tag}
    permit TR-1, until 2026-12-01
    exemption ${text}, until 2026-12-01
    notice 2026-05-04 to ${text}
    wood leaves to ${text}
    note ${text}
  prescription R2 fell
    because ${text}
    replace none ${text}
  prescription R3 thin
    withdrawn 2026-05-02 ${text}
  work R1 2026-05-30
    by P-${tag}
    unfinished ${text}
    photo ${text}, toward S
    note ${text}
  follow-up F1 climbing inspection
    due 2026-07-01
    because ${text}
    note ${text}
  accept ground-only
    until 2027-03-01
    by P-${tag}
    because ${text}
  accept interior-unseen for A
    until 2027-03-01
    by P-${tag}
    because ${text}
`;
}

/** Lines that are spoilt, or comments, with what a text may not hold. */
const spoiltInventory = (hostile: readonly string[]): string =>
  [
    'tree 1 # ',
    ...hostile.flatMap(text => [`# ${text}`, `  note "${text}"`, `  ${text}`, `  dbh 41 ${text}`]),
    'dbh 41',
    '',
  ].join('\n');

/** By path: each text in a folder of its own, which is called so, too; what is spoilt; and files called so. */
export function hostileFolder(): Readonly<Record<string, string>> {
  const named = [...HOSTILE_TEXTS, ...HOSTILE_MARKS].map((text, i) => [
    `names/${i} ${asFileName(text)}/${asFileName(text)}.wood`,
    `tree ${i}\n  dbh 41\n`,
  ]);
  return {
    ...Object.fromEntries(HOSTILE_TEXTS.map((text, i) => [`${i}/a.wood`, inventoryOf(text, `T${i}`)])),
    ...Object.fromEntries(named),
    '::add-mask::x.wood': 'tree 1\n  dbh 41\n',
    'a.wood:1:1: error: forged [forged]\nb.wood': 'tree 1\n  dbh 41\n',
    'spoilt.wood': spoiltInventory([...HOSTILE_TEXTS, ...HOSTILE_MARKS]),
  };
}
