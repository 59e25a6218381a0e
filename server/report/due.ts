/** Dates by which something must be done, or until which something is valid. */

import { openFollowUps } from '../assess/evidence.ts';
import { nextLookOf, soonerWords } from '../assess/next-look.ts';
import { permitFor } from '../assess/permits.ts';
import { jobName, openPrescriptionsOfAnyKind } from '../assess/prescriptions.ts';
import { upkeepOf } from '../assess/upkeep.ts';
import { quoted } from '../base/words.ts';
import type { ReportData, ReportTree } from './data.ts';
import { tagOf } from './parts.ts';
import { personWords } from './words.ts';

export interface DueDate {
  /** Day number. */
  readonly day: number;
  /** Tag, with the site where there are several. */
  readonly tree: string;
  readonly what: string;
}

export const dueDates = (data: ReportData): readonly DueDate[] =>
  data.trees.flatMap(entry => dueOf(entry, data)).sort((a, b) => a.day - b.day);

function dueOf(entry: ReportTree, data: ReportData): readonly DueDate[] {
  const { tree, site, settings } = entry;
  if (tree.felled) return [];
  const due: Omit<DueDate, 'tree'>[] = [];
  for (const { kind, id, due: day, by } of openFollowUps(tree)) {
    const who = by ? `, ${personWords(by.value, data)}` : '';
    if (day) due.push({ day: day.value, what: `${kind.value} ${id.value}${who}` });
  }
  for (const prescription of openPrescriptionsOfAnyKind(tree)) {
    const { between } = prescription;
    const job = jobName(prescription);
    if (between) due.push({ day: between.to, what: `${job}: last day of its window` });
    const permit = permitFor(tree, prescription);
    if (permit?.until !== undefined)
      due.push({ day: permit.until, what: `permit ${permit.number.value} for ${job} ends` });
  }
  for (const { rule, until, by } of tree.accepts) {
    const who = by ? `, accepted by ${personWords(by.value, data)}` : '';
    if (until) due.push({ day: until.value, what: `exception from ${rule.value} ends${who}` });
  }
  for (const { name, closed } of tree.targets)
    if (closed?.until !== undefined && closed.until >= data.on)
      due.push({ day: closed.until, what: `closure of ${quoted(name.value)} ends` });
  const next = nextLookOf({ tree, site, settings, today: data.on });
  if (next)
    due.push({
      day: next.day,
      what: `next inspection${next.sooner ? `: ${soonerWords(next.sooner)}` : ''}`,
    });
  for (const { day, what } of upkeepOf({ tree, site, settings, today: data.on })) due.push({ day, what });
  return due.map(one => ({ ...one, tree: tagOf(entry, data) }));
}

/** Open work and investigations for which no day is set. */
export const undated = (data: ReportData): readonly string[] =>
  data.trees.flatMap(entry => {
    const { tree } = entry;
    return [
      ...openPrescriptionsOfAnyKind(tree).flatMap(one =>
        one.between ? [] : [`${jobName(one)}${one.priority ? ` (priority ${one.priority.value})` : ''}`],
      ),
      ...openFollowUps(tree).flatMap(({ kind, id, due }) => (due ? [] : [`${kind.value} ${id.value}`])),
    ].map(what => `${what} at tree ${tagOf(entry, data)}`);
  });
