/** Which limits, seasons and severities apply in a folder or file, and where each comes from. */

import { stat } from 'node:fs/promises';
import { join, resolve } from 'node:path';
import { formatDate, formatMonthDay } from '../base/dates.ts';
import { UserError } from '../base/user-error.ts';
import type { Origin, PlacedSeason } from '../facts/settings.ts';
import { buildWorkspace, readFile, settingsFor, siteOf } from '../facts/workspace.ts';
import { shown } from '../host/paths.ts';
import { limits } from '../practice/limits.ts';
import { RULES } from '../rules/registry.ts';
import { onOneLine, visibleInLog } from '../show/visible.ts';
import { applicableFiles, inWorkspace, isProblem, readSource, reasonOf } from './files.ts';
import type { Io } from './io.ts';
import { amount, columns } from './prose.ts';

/** @param only the one rule or limit that is asked for */
export async function placeText(path: string, only: string | undefined, io: Io): Promise<string> {
  const given = resolve(io.cwd, path);
  const isFolder = await stat(given).then(
    found => found.isDirectory(),
    (error: unknown) => {
      throw new UserError(`${path} ${reasonOf(error)}.`);
    },
  );
  // A folder has the settings of any file in it.
  const file = isFolder ? join(given, 'here.wood') : given;
  const around = await applicableFiles([file], io.cwd);
  const snapshots = [];
  for (const source of isFolder ? around.paths : [...around.paths, file]) {
    const read = await readSource(source, io.cwd);
    if (isProblem(read)) throw new UserError(`${read.file} ${read.message}.`);
    snapshots.push(readFile(inWorkspace(around.root, source), read.text));
  }
  const workspace = buildWorkspace(snapshots);
  const here = inWorkspace(around.root, file);
  const settings = settingsFor(workspace, here);
  const wanted = (name: string) => only === undefined || name === only;
  const origin = (from: Origin): string => {
    const place =
      from.file === undefined ? '' : ` in ${onOneLine(shown(io.cwd, resolve(around.root, from.file)))}`;
    const reason = from.because === undefined ? '' : `: ${visibleInLog(from.because)}`;
    switch (from.from) {
      case 'practice':
        return `practice ${from.name === undefined ? '' : `"${visibleInLog(from.name)}"`}${place}${reason}`;
      case 'region':
        return `region ${settings.region.name}`;
      case 'table':
        return 'common to all places';
    }
  };
  const limitRows = limits
    .filter(({ name }) => wanted(name))
    .map(({ name, direction }) => {
      const setting = settings.limit(name);
      return [
        name,
        `${direction} ${amount(setting.value, setting.unit)}`,
        `${origin(setting.origin)}${authorized(settings, name)}`,
      ];
    });
  const season = (name: string, found: PlacedSeason | undefined) =>
    found
      ? [
          [
            name,
            `${formatMonthDay(found.window.from)}..${formatMonthDay(found.window.to)}`,
            origin(found.origin),
          ],
        ]
      : [];
  const seasonRows =
    only === undefined
      ? [
          ...season('nesting', settings.nesting),
          ...season('raptor nesting', settings.raptorNesting),
          ...season('bat maternity', settings.batMaternity),
          ...season('pruning', settings.pruning),
        ]
      : [];
  const severityRows = RULES.filter(({ name }) => wanted(name)).flatMap(({ name }) => {
    const level = settings.severity(name);
    return level === undefined ? [] : [[name, level]];
  });
  const part = (title: string, rows: readonly (readonly string[])[]) =>
    rows.length === 0 ? [] : [`${io.paint('bold', title)}\n${columns(rows)}`];
  const site = siteOf(workspace, here);
  return [
    `In ${onOneLine(shown(io.cwd, given))}: ${site ? `site "${visibleInLog(site.name.value)}"` : 'no site'}, ${regionText(settings)}\n`,
    ...part('Limits', limitRows),
    ...part('Seasons', seasonRows),
    ...part('Severities', severityRows),
  ].join('\n');
}

/** What the limit is on the days of an authorization; nothing where there is none. */
function authorized(settings: ReturnType<typeof settingsFor>, name: string): string {
  const setting = settings.limit(name, Number.NEGATIVE_INFINITY);
  return setting.authorized
    ? `; ${amount(setting.value, setting.unit)} until ${formatDate(setting.authorized.until)}, ${visibleInLog(setting.authorized.by)}`
    : '';
}

function regionText({ region, regionApplied }: ReturnType<typeof settingsFor>): string {
  switch (regionApplied) {
    case 'exact':
      return `region ${region.name}.`;
    case 'country':
      return `region ${region.name} (there is no pack of its own for the state or province).`;
    case 'default':
      return 'a region without a pack of its own: the default applies.';
    case 'unstated':
      return 'no region stated: the default applies.';
  }
}
