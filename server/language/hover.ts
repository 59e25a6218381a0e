/** The hover for the word under the cursor. */

import { compassPoint } from '../../grammar/bearing.ts';
import type { Value } from '../../grammar/syntax.ts';
import type { Span } from '../../grammar/text.ts';
import { formatDate } from '../base/dates.ts';
import { showQuantity } from '../base/quantity.ts';
import type { Settings } from '../facts/settings.ts';
import { treeOn } from '../facts/state.ts';
import type { Crew, Site, Tree } from '../facts/types.ts';
import { crewIn, type DatedWorkspace, type FileSnapshot, filesNamed, siteOf } from '../facts/workspace.ts';
import { findLimit } from '../practice/limits.ts';
import { ruleNamed } from '../rules/registry.ts';
import { readInRegion } from '../show/in-region.ts';
import { longDate } from '../show/long-date.ts';
import { convertedUnit } from './converted-unit.ts';
import { type Cursor, contentOf, cursorAt, holds } from './cursor.ts';
import {
  defectText,
  drillingText,
  ESTIMATE,
  partText,
  prescriptionText,
  pullTestText,
  supportText,
  tomogramText,
  treeText,
} from './figures.ts';
import { escapeMarkdown, paragraphs } from './markdown.ts';
import { type NameAt, nameAt } from './names.ts';
import { organismsAt, organismText } from './organisms.ts';
import { photoAt, photoText } from './photo-text.ts';
import { ruleText } from './rule-text.ts';
import { settingsOf } from './snapshot.ts';
import { entryText, limitText } from './terms.ts';

export interface Hover extends Span {
  readonly markdown: string;
  /** Path of a photograph to show above it, relative to the root. */
  readonly photo?: string;
}

export function hover(snapshot: DatedWorkspace, file: FileSnapshot, offset: number): Hover | undefined {
  const cursor = cursorAt(file, offset);
  const { line, item, lineStart, head } = cursor;
  if (!item || !head) return undefined;
  const span = { start: lineStart + item.start, end: lineStart + item.end };
  const value = line.values.find(found => holds(found, cursor.column));
  const named = nameAt(file, offset);
  if (named) {
    const markdown = nameText(snapshot, named);
    if (markdown) return { start: named.start, end: named.end, markdown };
  }
  const photo = value && photoAt(file, line, value);
  if (value && photo) {
    const markdown = photoText(snapshot, cursor, photo);
    const { path } = photo;
    return {
      start: lineStart + value.start,
      end: lineStart + value.end,
      markdown,
      ...(path === undefined ? {} : { photo: path }),
    };
  }
  if (value) {
    const markdown = valueText(snapshot, cursor, value);
    if (markdown) return { start: lineStart + value.start, end: lineStart + value.end, markdown };
  }
  const entry = line.role === 'head' ? head : head.fields.get(line.word ?? '');
  if (!entry) return undefined;
  const onHead = line.role === 'head' && isHeadWord(cursor) && figuresAt(snapshot, cursor);
  const markdown = onHead ? paragraphs(onHead, entryText(entry), ESTIMATE) : entryText(entry);
  return { ...span, markdown };
}

/** What is known of a tree, in the words of the region; its name stays as it is. */
function treeRead(tree: Tree, settings: Settings, site: Site | undefined, today: number): string {
  const [title, ...rest] = treeText(tree, settings, site, today).split('\n\n');
  return [title, ...rest.map(part => readInRegion(part, settings.region))].join('\n\n');
}

const isHeadWord = ({ line, column }: Cursor): boolean =>
  line.syntax.items.slice(0, line.word?.split(' ').length ?? 0).some(item => holds(item, column));

/** The figures of the record whose head the cursor is on. */
function figuresAt(snapshot: DatedWorkspace, { fact, placed, line, file }: Cursor): string | undefined {
  if (fact?.fact.kind !== 'tree') return undefined;
  const tree = treeOn(fact.fact, snapshot.today);
  const start = contentOf(placed, line).start - placed.start;
  const at = (one: { readonly at: Span; readonly earlier?: readonly { readonly at: Span }[] }): boolean =>
    one.at.start === start || (one.earlier?.some(at) ?? false);
  const settings = settingsOf(snapshot, file.path);
  const site = siteOf(snapshot.workspace, file.path);
  if (line.word === 'tree') return treeRead(tree, settings, site, snapshot.today);
  const text = recordText(snapshot, tree, at, file.path);
  return text && readInRegion(text, settings.region);
}

/** Those of a record of a tree. */
function recordText(
  snapshot: DatedWorkspace,
  tree: Tree,
  at: (one: { readonly at: Span }) => boolean,
  path: string,
): string | undefined {
  const settings = settingsOf(snapshot, path);
  const site = siteOf(snapshot.workspace, path);
  const defect = tree.defects.find(at);
  if (defect) return defectText(tree, defect, settings, site);
  const drilling = tree.drillings.find(at);
  if (drilling) return drillingText(tree, drilling, settings, filesNamed(snapshot.workspace, path));
  const tomogram = tree.tomograms.find(at);
  if (tomogram) return tomogramText(tree, tomogram, settings);
  const pull = tree.pullTests.find(at);
  if (pull) return pullTestText(tree, pull, settings, site);
  const support = tree.supports.find(at);
  if (support) return supportText(tree, support, settings, site);
  const part = tree.parts.find(at);
  if (part) return partText(tree, part, settings, site);
  const prescription = tree.prescriptions.find(at);
  return prescription && prescriptionText(tree, prescription, site, settings, crewIn(snapshot.workspace));
}

/** What a name refers to. */
function nameText(snapshot: DatedWorkspace, { kind, name, holder }: NameAt): string | undefined {
  const { workspace } = snapshot;
  const settings = settingsOf(snapshot, holder.path);
  switch (kind) {
    case 'person': {
      const person = workspace.persons.get(name)?.fact;
      if (!person) return undefined;
      return paragraphs(
        `**${escapeMarkdown(name)}** ${escapeMarkdown(person.name.value)}`,
        escapeMarkdown(person.qualifications.map(({ value }) => value).join(', ')),
        person.certificates
          .map(({ number, until }) =>
            escapeMarkdown(
              `${number}${until === undefined ? '' : `, until ${longDate(until, settings.region)}`}`,
            ),
          )
          .join('  \n'),
      );
    }
    case 'crew': {
      const crew = workspace.crews.get(name)?.fact;
      if (!crew) return undefined;
      return paragraphs(
        `**${escapeMarkdown(name)}** ${escapeMarkdown(crew.name.value)}`,
        escapeMarkdown(crew.qualifications.map(({ value }) => value).join(', ')),
        escapeMarkdown(`Members: ${crew.members.map(({ value }) => value).join(', ')}`),
      );
    }
    default:
      return holder.fact.kind === 'tree'
        ? treeNameText(
            treeOn(holder.fact, snapshot.today),
            kind,
            name,
            siteOf(workspace, holder.path),
            settings,
            crewIn(workspace),
            snapshot.today,
          )
        : undefined;
  }
}

function treeNameText(
  tree: Tree,
  kind: NameAt['kind'],
  name: string,
  site: Site | undefined,
  settings: Settings,
  crew: (id: string) => Crew | undefined,
  today: number,
): string | undefined {
  switch (kind) {
    case 'tag':
      return paragraphs(treeRead(tree, settings, site, today), ESTIMATE);
    case 'defect': {
      const defect = tree.defects.find(({ id }) => id.value === name);
      return (
        defect &&
        paragraphs(readInRegion(defectText(tree, defect, settings, site), settings.region), ESTIMATE)
      );
    }
    case 'prescription': {
      const prescription = tree.prescriptions.find(({ id }) => id.value === name);
      return (
        prescription &&
        paragraphs(
          readInRegion(prescriptionText(tree, prescription, site, settings, crew), settings.region),
          ESTIMATE,
        )
      );
    }
    case 'part': {
      const part = tree.parts.find(found => found.name.value === name);
      if (!part) return undefined;
      const facts = [
        part.from && `from ${showQuantity(part.from.value)}`,
        part.diameter && `diameter ${showQuantity(part.diameter.value)}`,
        part.union && `union ${part.union.value}`,
      ].filter(text => text !== undefined);
      return paragraphs(`**${part.kind} ${escapeMarkdown(name)}**`, escapeMarkdown(facts.join(', ')));
    }
    default:
      return undefined;
  }
}

function valueText(snapshot: DatedWorkspace, { file, head, line }: Cursor, value: Value): string | undefined {
  switch (value.type) {
    case 'quantity': {
      const other = convertedUnit(value.quantity);
      const unit = value.quantity.unit?.name;
      if (!other) return undefined;
      return paragraphs(
        `${escapeMarkdown(showQuantity(value.quantity))} is ${escapeMarkdown(other)}`,
        unit && `${escapeMarkdown(head?.fields.get(line.word ?? '')?.summary ?? '')}`,
      );
    }
    case 'species':
      return organismText(
        organismsAt(head?.word ?? '', line.word ?? ''),
        value.species,
        settingsOf(snapshot, file.path),
      );
    case 'bearing':
      return escapeMarkdown(`${compassPoint(value.degrees)}, ${value.degrees} degrees clockwise from north`);
    case 'dates':
      return readInRegion(
        escapeMarkdown(dateText(value.from, value.to, snapshot.today)),
        settingsOf(snapshot, file.path).region,
      );
    case 'text': {
      const spec = line.role === 'head' ? head : head?.fields.get(line.word ?? '');
      const known = spec?.values.get(value.name);
      const type = known?.kind === 'value' ? known.type : undefined;
      const limit = type === 'limit' ? findLimit(value.text) : undefined;
      if (limit)
        return limitText(limit.name, limit.summary, limit.direction, settingsOf(snapshot, file.path));
      const rule = type === 'rule' ? ruleNamed(value.text) : undefined;
      return rule && ruleText(rule);
    }
    default:
      return undefined;
  }
}

const WEEKDAYS = ['Thursday', 'Friday', 'Saturday', 'Sunday', 'Monday', 'Tuesday', 'Wednesday'] as const;

/** Day 0 was a Thursday. */
const weekday = (day: number): string => WEEKDAYS[((day % 7) + 7) % 7]!;

function dateText(from: number, to: number, today: number): string {
  const distance = (day: number) => {
    const days = day - today;
    if (days === 0) return 'today';
    const count = Math.abs(days) === 1 ? '1 day' : `${Math.abs(days)} days`;
    return days < 0 ? `${count} ago` : `in ${count}`;
  };
  const show = (day: number) => `${weekday(day)}, ${formatDate(day)}, ${distance(day)}`;
  return from === to ? show(from) : `${show(from)}; to ${show(to)}; ${to - from + 1} days`;
}
