/** The limits, seasons and severities that apply in a folder or file, with their origins. */

import { stat } from 'node:fs/promises';
import { join, resolve } from 'node:path';
import { lengthLimitLike } from '../assess/prescriptions.ts';
import { formatDate, formatMonthDay } from '../base/dates.ts';
import { unitOf } from '../base/quantity.ts';
import { UserError } from '../base/user-error.ts';
import type { Origin, Setting, Settings } from '../facts/settings.ts';
import type { Site } from '../facts/types.ts';
import { buildWorkspace, readFile, settingsFor, siteOf } from '../facts/workspace.ts';
import { shown } from '../host/paths.ts';
import { LAW_SUBJECTS, type LawRow } from '../practice/law/law-row.ts';
import { laterLawsIn } from '../practice/law/laws-of.ts';
import { type LimitEntry, limits } from '../practice/limits.ts';
import { RULES } from '../rules/registry.ts';
import type { Rule } from '../rules/rule.ts';
import { restsOn } from '../show/law-text.ts';
import { sanitizeForLog, sanitizeLine } from '../show/sanitize.ts';
import { applicableFiles, inWorkspace, isProblem, readSource, reasonOf } from './files.ts';
import type { Io } from './io.ts';
import { amount, columns, wrap } from './prose.ts';

type Rows = readonly (readonly string[])[];

/** What applies in a folder or to a file. */
interface Scope {
  /** Absolute, as given. */
  readonly path: string;
  /** Absolute; paths in the workspace are relative to it. */
  readonly root: string;
  readonly site: Site | undefined;
  readonly settings: Settings;
}

/** @param only the one rule or limit to show; undefined for all, with the seasons */
export async function placeText(path: string, only: string | undefined, io: Io): Promise<string> {
  const scope = await scopeOf(path, io);
  const { site, settings } = scope;
  const origin = (of: Origin) => originText(of, scope, io);
  const isShown = ({ name }: { readonly name: string }) => only === undefined || name === only;
  const part = (title: string, rows: Rows) =>
    rows.length === 0 ? [] : [`${io.paint('bold', title)}\n${columns(rows)}`];
  return [
    `In ${sanitizeLine(shown(io.cwd, scope.path))}: ${site ? `site "${sanitizeForLog(site.name.value)}"` : 'no site'}, ${regionText(settings)}\n`,
    ...part('Limits', limitRows(limits.filter(isShown), settings, origin)),
    ...part('Seasons', only === undefined ? seasonRows(settings, origin) : []),
    ...part('Severities', severityRows(RULES.filter(isShown), settings)),
    ...(only === undefined ? [...packText(settings.region.rows, io), ...laterText(site, io)] : []),
  ].join('\n');
}

async function scopeOf(path: string, io: Io): Promise<Scope> {
  const given = resolve(io.cwd, path);
  const isFolder = await stat(given).then(
    found => found.isDirectory(),
    (error: unknown) => {
      throw new UserError(`${path} ${reasonOf(error)}.`);
    },
  );
  // A folder has the settings of any file in it.
  const file = isFolder ? join(given, 'here.wood') : given;
  const { root, paths } = await applicableFiles([file], io.cwd);
  const files = [];
  for (const source of isFolder ? paths : [...paths, file]) {
    const read = await readSource(source, io.cwd);
    if (isProblem(read)) throw new UserError(`${read.file} ${read.message}.`);
    files.push(readFile(inWorkspace(root, source), read.text));
  }
  const workspace = buildWorkspace(files);
  const here = inWorkspace(root, file);
  return {
    path: given,
    root,
    site: siteOf(workspace, here),
    settings: settingsFor(workspace, here, io.today),
  };
}

function originText({ from, name, file, because }: Origin, { root, settings }: Scope, io: Io): string {
  switch (from) {
    case 'practice': {
      const title = name === undefined ? '' : `"${sanitizeForLog(name)}"`;
      const place = file === undefined ? '' : ` in ${sanitizeLine(shown(io.cwd, resolve(root, file)))}`;
      const reason = because === undefined ? '' : `: ${sanitizeForLog(because)}`;
      return `practice ${title}${place}${reason}`;
    }
    case 'region':
      return `region ${settings.region.name}`;
    case 'table':
      return 'common to all regions';
  }
}

/** In metric units outside of the United States, unless a practice block states it. */
function amountHere(setting: Setting, { region, regionApplied }: Settings): string {
  const metric = { in: 'cm', ft: 'm' }[setting.unit];
  const isMetric = regionApplied !== 'unstated' && !/^US(?:-|$)/.test(region.code);
  return metric && isMetric && setting.origin.from !== 'practice'
    ? lengthLimitLike(setting, { unit: unitOf(metric) })
    : amount(setting.value, setting.unit);
}

const limitRows = (some: readonly LimitEntry[], settings: Settings, origin: (of: Origin) => string): Rows =>
  some.map(({ name, direction }) => {
    const setting = settings.limit(name);
    return [
      name,
      `${direction} ${amountHere(setting, settings)}`,
      `${origin(setting.origin)}${authorized(settings, name)}`,
    ];
  });

function seasonRows(settings: Settings, origin: (of: Origin) => string): Rows {
  const { nesting, raptorNesting, eagleNesting, batMaternity, batTrees, pruning } = settings;
  const seasons = {
    nesting,
    'raptor nesting': raptorNesting,
    'eagle nesting': eagleNesting,
    'bat maternity': batMaternity,
    'trees with bats': batTrees,
    pruning,
  };
  return Object.entries(seasons).flatMap(([name, season]) =>
    season
      ? [
          [
            name,
            `${formatMonthDay(season.window.from)}..${formatMonthDay(season.window.to)}`,
            origin(season.origin),
          ],
        ]
      : [],
  );
}

const severityRows = (some: readonly Rule[], settings: Settings): Rows =>
  some.flatMap(({ name }) => {
    const level = settings.severity(name);
    return level === undefined ? [] : [[name, level]];
  });

/** All rows on record for the place, by subject. */
function packText(rows: readonly LawRow[], io: Io): readonly string[] {
  const today = formatDate(io.today);
  return LAW_SUBJECTS.flatMap(subject => {
    const own = rows.filter(row => row.subject === subject);
    if (own.length === 0) return [];
    const told = own.map(row => `${wrap(row.says, 2, 4)}\n${wrap(`(${restsOn(row, today)})`, 4)}\n`);
    return [`${io.paint('bold', `On record for this region: ${subject}`)}\n${told.join('')}`];
  });
}

/** Rows that are not in force yet on the day, and so do not count. */
function laterText(site: Site | undefined, io: Io): readonly string[] {
  const day = formatDate(io.today);
  const later = site?.region ? laterLawsIn(site.region.value, day) : [];
  if (later.length === 0) return [];
  const told = later.map(row => `${wrap(row.says, 2, 4)}\n${wrap(`(${restsOn(row, day)})`, 4)}\n`);
  return [`${io.paint('bold', `Not in force on ${day}`)}\n${told.join('')}`];
}

/** The limit on the days of an authorization; empty without one. */
function authorized(settings: Settings, name: string): string {
  const setting = settings.limit(name, Number.NEGATIVE_INFINITY);
  return setting.authorized
    ? `; ${amount(setting.value, setting.unit)} until ${formatDate(setting.authorized.until)}, ${sanitizeForLog(setting.authorized.by)}`
    : '';
}

function regionText({ region, regionApplied }: Settings): string {
  switch (regionApplied) {
    case 'exact':
      return `region ${region.name}.`;
    case 'country':
      return `region ${region.name} (no separate pack for the state or province).`;
    case 'none':
      return `region ${region.name}, which has no pack: none of its seasons and laws are on record.`;
    case 'unstated':
      return 'no region set: common seasons apply.';
  }
}
