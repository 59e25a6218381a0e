/** Whatever a writer puts into an inventory stays text in the page. */

import { SaxesParser } from 'saxes';
import { expect, test } from 'vitest';
import { html, render } from '../../server/report/html.ts';
import { folderWith } from '../cli/folder.ts';

/** Breaks out of text, of attributes, of comments and of style sheets where something lets it. */
const HOSTILE = `<script>alert(1)</script>' onload='alert(2)' x=\`</style><img src=x onerror=alert(3)>--><svg onload=alert(4)>&lt;&#60; javascript:alert(5)`;
/** In the notation a quotation mark inside a string is doubled. */
const TEXT = `"${HOSTILE}"" onfocus=""alert(6)"`;

const INVENTORY = `site ${TEXT}
  region US-OR
  position 44.3, -122.8
  client ${TEXT}
  storm 2026-01-18 ${TEXT}

person RV ${TEXT}
  qualified consulting arborist

crew ROPE ${TEXT}
  members RV
  rope 400 lb

practice ${TEXT}
  limit strength-loss 25 %
    because ${TEXT}

tree 14 ${TEXT}
  species Acer macrophyllum
  position 44.31281, -122.87131
  dbh 41 in
  height 52 ft
  crown from 14 ft, 58 ft wide
  stressed by drought, since 2026-01-01
  protected by ${TEXT} permit TR-1, until 2026-12-31, for pruning
  photo ${TEXT}
  inspection 2026-03-14 from drone
    by RV
    unseen ${TEXT}
    photo ${TEXT}, from 55 ft
  stem North
    from 9 ft
    union included bark
  defect A cavity
    on trunk at 18 ft, facing SW
    diameter 26 in
    opening 9 in wide, 14 in tall
    wall 2..4 in at SW
  target ${TEXT}
    distance 12 ft
    occupied frequent
  risk ${TEXT} from A
    failure probable
    impact medium
    consequences severe
    rating moderate
  conductor ${TEXT}
    voltage 12.5 kV
    distance 3..5 ft
  view ${TEXT}
    eye 14 ft, 40 ft away
    hide 0..24 ft, 140 ft beyond
  prescription R1 reduce
    height 52 ft to 46 ft
    spread 58 ft to 52 ft
    between 2026-09-15..2026-11-30
    because ${TEXT}
    by RV
    with ROPE
    permit TR-1, until 2026-12-01
    replacement 2 Quercus garryana
  follow-up F1 climbing inspection
    due 2026-07-01
    because ${TEXT}
  accept ground-only
    until 2027-03-01
    by RV
    because ${TEXT}
  ${HOSTILE}\u0000\u0007\u202E
  note "a\u0000b\u202Ec"
`;

/** Elements and attributes of the page, as a parser sees them. */
function elements(
  page: string,
): { readonly name: string; readonly attributes: Readonly<Record<string, string>> }[] {
  const found: { name: string; attributes: Record<string, string> }[] = [];
  const parser = new SaxesParser({ fragment: true, xmlns: false });
  parser.on('opentag', ({ name, attributes }) =>
    found.push({ name, attributes: attributes as Record<string, string> }),
  );
  parser.on('error', error => {
    throw error;
  });
  // What is void in HTML is closed by the renderer; script and style hold what XML would read as mark-up.
  parser
    .write(page.replace(/^<!DOCTYPE html>/, '').replace(/(<(script|style)>).*?(<\/\2>)/gs, '$1$3'))
    .close();
  return found;
}

test('every text of an inventory is inert in every part of the report', async () => {
  const folder = await folderWith({ 'a.wood': INVENTORY });
  const { out } = await folder.run('report');
  const seen = elements(out);
  expect(seen.filter(({ name }) => name === 'script')).toHaveLength(1);
  expect(seen.filter(({ name }) => name === 'style')).toHaveLength(1);
  // The map is part of the page; the other pictures are images.
  for (const { attributes } of seen.filter(({ name }) => name === 'svg'))
    expect(attributes.class).toBe('map');
  for (const { name, attributes } of seen) {
    for (const [attribute, value] of Object.entries(attributes)) {
      expect(attribute, name).not.toMatch(/^on|^style$/);
      if (attribute === 'src') expect(value).toMatch(/^data:image\/[a-z+]+;base64,[A-Za-z0-9+/=]+$/);
      if (attribute === 'href') expect(value).toMatch(/^#[a-z0-9-]+$/);
    }
  }
  expect(out).not.toMatch(/[\0-\x08\x0B\x0C\x0E-\x1F\x7F-\x9F\u202A-\u202E\u2066-\u2069]/);
  // The text itself is there for people to read, many times over.
  expect(out.split('&lt;script>alert(1)&lt;/script>').length).toBeGreaterThan(15);
});

test('pictures hold the hostile text as text', async () => {
  const folder = await folderWith({ 'a.wood': INVENTORY });
  const { out } = await folder.run('report', '--for', 'client');
  const pictures = [...out.matchAll(/src="data:image\/svg\+xml;base64,([^"]+)"/g)].map(match =>
    Buffer.from(match[1]!, 'base64').toString('utf8'),
  );
  expect(pictures.length).toBeGreaterThanOrEqual(3);
  for (const picture of pictures) {
    const names = elements(picture).map(({ name }) => name);
    expect(names).not.toContain('script');
    expect(names).not.toContain('img');
    expect(names.filter(name => name === 'svg')).toHaveLength(1);
  }
});

test('a template escapes text and values, and marks what no page may hold', () => {
  const text = 'a\u0000\u0007\u001B\u0085\u202E\uD800 <b> & "c" \'d\' \u{1F333}';
  const shown = "a\uFFFD\uFFFD\uFFFD\uFFFD\uFFFD\uFFFD &lt;b> &amp; &quot;c&quot; 'd' \u{1F333}";
  expect(render(html`<p title=${text}>${text}${[text, [text]]}</p>`)).toBe(
    `<p title="${shown}">${shown}${shown}${shown}</p>`,
  );
});
