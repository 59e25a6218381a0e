/** A tree in pictures and figures: its elevation, the sections at its hollows, and its options. */

import { assess, contextIn } from '../assess/assessment.ts';
import { allPhotoViews, type PhotoViews, viewsWords } from '../assess/photo-views.ts';
import { stemSafety } from '../assess/safety.ts';
import { readTraces } from '../assess/traces.ts';
import { svgUri } from '../base/data-uri.ts';
import { capital } from '../base/words.ts';
import type { WrittenTree } from '../facts/types.ts';
import { type DatedWorkspace, type FileSnapshot, filesNamed, type PlacedFact } from '../facts/workspace.ts';
import { elevationPicture } from '../show/drawing/elevation-picture.ts';
import { historyPicture, sectionPicture, tracePicture } from '../show/drawing/pictures.ts';
import type { Area } from '../show/drawing/svg.ts';
import { eventText, type History, historyOf, historySections, isSeenAgain } from '../show/history.ts';
import { readInRegion } from '../show/in-region.ts';
import { lifeOf } from '../show/life.ts';
import { longDate } from '../show/long-date.ts';
import { describeWeighed, WEIGH_CAUTION } from '../show/weigh.ts';
import type { Weighed, WeighSection } from '../show/weighed.ts';
import { cursorAt, linesOfSection } from './cursor.ts';
import { bullets } from './figures.ts';
import { escapeMarkdown, image, paragraphs, table } from './markdown.ts';

export interface TreePreview {
  /** Plain text. */
  readonly title: string;
  /** The pictures and the words below them. Text from the inventory is escaped. */
  readonly markdown: string;
  /** The same pictures with the places of their parts, and the same words by themselves. */
  readonly pictures: readonly PreviewPicture[];
  readonly words: string;
}

export interface PreviewPicture {
  /** A `data:` URI. */
  readonly source: string;
  /** Plain text. */
  readonly description: string;
  readonly places: readonly PreviewPlace[];
}

/** A part of a picture and its record. */
interface PreviewPlace {
  /** Plain text. */
  readonly name: string;
  /** Percent of the picture: left, top, width, height. */
  readonly area: readonly [number, number, number, number];
  /** Lines of the file, from 0. */
  readonly first: number;
  readonly last: number;
}

/** A preview without pictures. */
export const wordsOnly = (title: string, markdown: string): TreePreview => ({
  title,
  markdown,
  pictures: [],
  words: markdown,
});

/** The preview of the tree at an offset; undefined if there is none. */
export function previewAt(
  snapshot: DatedWorkspace,
  file: FileSnapshot,
  offset: number,
): TreePreview | undefined {
  const { fact } = cursorAt(file, offset);
  return fact?.fact.kind === 'tree' ? previewOf(snapshot, file, fact as PlacedTree) : undefined;
}

type PlacedTree = PlacedFact<WrittenTree>;

export function previewOf(
  snapshot: DatedWorkspace,
  file: FileSnapshot,
  { start, fact, block }: PlacedTree,
): TreePreview {
  const context = contextIn(snapshot, file.path, fact);
  const { tree, site, settings } = context;
  const assessment = assess(context);
  const { strength } = assessment;
  const safety = stemSafety(tree, strength, site, settings);
  const events = lifeOf(tree, block, snapshot.today);
  const history = isSeenAgain(tree) ? historyOf(context, file.path, events) : undefined;
  const fileOf = filesNamed(snapshot.workspace, file.path);
  const views = allPhotoViews(tree, settings, fileOf);
  const pictures = [
    elevationPicture(tree, settings),
    ...strength.defects.map(defect =>
      sectionPicture(
        tree,
        defect,
        strength,
        views.find(({ of }) => of === defect.hollow.defect),
      ),
    ),
    ...readTraces(tree, fileOf, settings).map(one => tracePicture(tree, one)),
    history && { ...historyPicture(history), places: [] },
  ].filter(picture => picture !== undefined);
  const title = tree.name ? `Tree ${tree.tag.value} ${tree.name.value}` : `Tree ${tree.tag.value}`;
  const words = wordsOf({ tree, file: file.path, site, settings, assessment, safety }, history, views);
  const images = pictures.map(({ svg, description }) => image(svg, description));
  return {
    title,
    markdown: paragraphs(images.join(' '), words),
    words,
    pictures: pictures.map(({ svg, description, places }) => ({
      source: svgUri(svg),
      description,
      places: places.map(({ name, at, ...area }) => ({
        name,
        area: shareOf(area, sizeOf(svg)),
        ...linesAt(file, start + at.start),
      })),
    })),
  };
}

const SIZE = / viewBox="0 0 ([\d.]+) ([\d.]+)"/;

function sizeOf(svg: string): { readonly width: number; readonly height: number } {
  const [, width, height] = SIZE.exec(svg)!;
  return { width: Number(width), height: Number(height) };
}

/** In percent, within the picture. */
function shareOf(
  { x, y, width, height }: Area,
  whole: { readonly width: number; readonly height: number },
): PreviewPlace['area'] {
  const along = (from: number, size: number, of: number): readonly [number, number] => {
    const first = Math.max(0, from);
    const percent = (length: number) => Number(((100 * length) / of).toFixed(2));
    return [percent(first), percent(Math.max(0, Math.min(from + size, of) - first))];
  };
  const [left, wide] = along(x, width, whole.width);
  const [top, high] = along(y, height, whole.height);
  return [left, top, wide, high];
}

/** The lines of the record at an offset: of a head all that is below it, of a field its own. */
function linesAt(file: FileSnapshot, offset: number): { readonly first: number; readonly last: number } {
  const { placed, section, line, lineIndex } = cursorAt(file, offset);
  const { firstLine } = placed;
  if (line.role !== 'head' || !section) return { first: firstLine + lineIndex, last: firstLine + lineIndex };
  const { first, last } = linesOfSection(placed, section);
  return { first: firstLine + first, last: firstLine + last };
}

/** Tables and lists, which fit a panel of any width. */
function wordsOf(weighed: Weighed, history: History | undefined, views: readonly PhotoViews[]): string {
  const { title, about, size, sections } = describeWeighed(weighed);
  return paragraphs(
    `# ${escapeMarkdown(title)}`,
    escapeMarkdown(about.replace(/^, /, '')),
    escapeMarkdown(size),
    ...sections.map(sectionText),
    ...(views.length > 0 ? [viewsText(views, weighed)] : []),
    ...(history ? yearsText(history) : []),
    `_${escapeMarkdown(WEIGH_CAUTION)}_`,
  );
}

/** Which sides the photographs show. */
const viewsText = (views: readonly PhotoViews[], { tree, settings }: Weighed): string =>
  paragraphs(
    '## Sides shown in photographs',
    bullets(
      views.map(one => {
        const name =
          'found' in one.of
            ? `nest check of ${longDate(one.of.date.value, settings.region)}`
            : `${one.of.kind.value} ${one.of.id.value}`;
        const like = 'found' in one.of ? undefined : (one.of.width ?? one.of.diameter)?.value;
        return escapeMarkdown(
          readInRegion(
            `${capital(name)}: ${viewsWords(one, like ?? tree.diameters[0]?.value)}`,
            settings.region,
          ),
        );
      }),
    ),
  );

/** What happened by day, and what follows from it. */
const yearsText = (history: History): readonly string[] => [
  '## Over the years',
  bullets(
    history.events.map(event =>
      escapeMarkdown(`${longDate(event.day, history.region)}: ${eventText(event, history.region)}`),
    ),
  ),
  ...historySections(history).map(({ heading, lines }) =>
    paragraphs(`## ${escapeMarkdown(heading)}`, bullets(lines.map(escapeMarkdown))),
  ),
];

const sectionText = ({ heading, head, rows, lines = [] }: WeighSection): string =>
  paragraphs(
    `## ${escapeMarkdown(heading)}`,
    rows && table(head ?? rows[0]!.map(() => ''), rows),
    lines.length > 1 ? bullets(lines.map(escapeMarkdown)) : escapeMarkdown(lines.join()),
  );
