/** Photographs of a tree: single ones, and series to be looked at side by side. */

import { compassPoint } from '../../grammar/bearing.ts';
import type { PhotoSeries, TreePhoto } from '../assess/photo-series.ts';
import { jobName } from '../assess/prescriptions.ts';
import { capital, listed } from '../base/words.ts';
import { UNREAD } from '../facts/placed.ts';
import type { Tree, Work } from '../facts/types.ts';
import { longDate } from '../show/long-date.ts';
import { quantityText } from '../show/words.ts';
import type { ReportPhoto, ReportTree } from './data.ts';
import { html, type Markup } from './html.ts';

/** Those of no series: a picture is in the page once. */
export function photosApart({ photographs, history }: ReportTree): readonly TreePhoto[] {
  const inSeries = new Set(
    history?.series.flatMap(({ photos }) => photos.map(({ photo }) => photo.path)) ?? [],
  );
  return [...new Map(photographs.map(one => [one.path, one] as const)).values()].filter(
    ({ path }) => !inSeries.has(path),
  );
}

const imageOf = (path: string, { photos }: ReportTree): ReportPhoto['image'] =>
  photos.find(photo => photo.path === path)?.image ?? { missing: 'was not read' };

/** `from ground, 55 ft away, looking S`. */
const viewWords = ({ from, distance, toward }: TreePhoto): readonly string[] => [
  ...(from === undefined || from === UNREAD ? [] : [`from ${from}`]),
  ...(distance ? [`${quantityText(distance)} away`] : []),
  ...(toward === undefined ? [] : [`looking ${compassPoint(toward)}`]),
];

export function photoOf(photo: TreePhoto, entry: ReportTree): Markup {
  const { path, subject, day, of } = photo;
  const image = imageOf(path, entry);
  if ('missing' in image) return html`<p class="quiet">Photograph ${path} ${image.missing}.</p>`;
  const when = [
    ...(day === undefined ? [] : [longDate(day, entry.settings.region)]),
    ...(of ? [`after ${workName(of, entry.tree)}`] : []),
  ].join(', ');
  const words = [capital(subject), ...(when === '' ? [] : [when]), ...viewWords(photo)].join(', ');
  return html`<figure class="photo"><img src=${image.address} alt=${`Photograph of tree ${entry.tree.tag.value}: ${words}`} /><figcaption>${words}; ${path}</figcaption></figure>`;
}

function workName({ prescription }: Work, { prescriptions }: Tree): string {
  const under = prescriptions.find(({ id }) => id.value === prescription.value);
  return under ? jobName(under) : `work ${prescription.value}`;
}

/** Series from before and after work: they belong to the chapter of the tree. */
export const seriesOfWork = ({ history }: ReportTree): readonly PhotoSeries[] =>
  history?.series.filter(({ photos }) => photos.some(({ after }) => after.length > 0)) ?? [];

export function seriesOf({ subject, photos }: PhotoSeries, entry: ReportTree): Markup {
  const { tree } = entry;
  const jobs = (works: readonly Work[]) => listed([...new Set(works.map(work => workName(work, tree)))]);
  const isBlind = photos[0]!.photo.toward === undefined;
  const done = photos.flatMap(({ after }) => after);
  const heading = done.length > 0 ? `before and after ${jobs(done)}` : 'side by side';
  return html`<div class="series"><h4>${capital(subject)}, ${heading}</h4>
    <div class="beside">${photos.map(({ photo, after, before }) => {
      const image = imageOf(photo.path, entry);
      const words = [
        longDate(photo.day, entry.settings.region),
        ...(after.length > 0 ? [`after ${jobs(after)}`] : []),
        ...(before.length > 0 ? [`before ${jobs(before)}`] : []),
      ].join(', ');
      const caption = html`<figcaption><strong>${words}</strong>${viewWords(photo)
        .map(one => `; ${one}`)
        .join('')}; ${photo.path}</figcaption>`;
      if ('missing' in image)
        return html`<figure><p class="quiet">Photograph ${photo.path} ${image.missing}.</p>${caption}</figure>`;
      return html`<figure><img src=${image.address} alt=${`Photograph of tree ${tree.tag.value}, ${subject}: ${words}`} />${caption}</figure>`;
    })}</div>
    ${isBlind && html`<p class="quiet">The side from which they were taken is not on record.</p>`}
  </div>`;
}
