/** Findings in the Static Analysis Results Interchange Format 2.1.0 (OASIS, 2020). */

import { version } from '../../package.json';
import { formatDate } from '../base/dates.ts';
import { counted } from '../base/words.ts';
import type { Finding } from '../rules/check.ts';
import { identityOf, numbered } from '../rules/identity.ts';
import { ruleNamed } from '../rules/registry.ts';
import { acceptedWords } from './accepted.ts';
import type { ShownFix, StartForm } from './check-result.ts';
import { Gravest } from './gravest.ts';
import { SARIF_LOCATIONS, SARIF_RESULTS } from './host-limits.ts';
import { jsonText, sanitize } from './sanitize.ts';

/** To be increased whenever the identity of a finding changes, so that old and new ones are not matched. */
const FINGERPRINT = 'identity/v1';

/** What paths are relative to, where the working folder lies in a repository (section 3.14.14). */
const ROOT = '%SRCROOT%';

export const showSarif: StartForm = ({ on, unread, since, siteOf, shown, fromRoot }, write) => {
  const gravest = new Gravest(SARIF_RESULTS.most);
  const placeOf = (file: string, region: Region) => location(artifact(shown(file), fromRoot), region);
  return {
    wantsFixes: finding => gravest.takes(finding),
    add: found => found.forEach(one => void gravest.add(one)),
    end() {
      const found = gravest.all;
      const findings = found.map(({ finding }) => finding);
      const rules = [...new Set(findings.map(({ rule }) => rule))].sort();
      const identities = numbered(findings.map(finding => identityOf(finding, siteOf(finding.file))));
      const suppressed = findings.some(({ accepted }) => accepted);
      const left = gravest.count - found.length;
      const leftOut = left > 0 ? counted(left, 'finding') : undefined;
      const log = {
        $schema: 'https://json.schemastore.org/sarif-2.1.0.json',
        version: '2.1.0',
        runs: [
          {
            tool: {
              driver: { name: 'soundwood', semanticVersion: version, rules: rules.map(descriptor) },
            },
            columnKind: 'utf16CodeUnits',
            // Without an address: that of one machine is none on another.
            originalUriBaseIds:
              fromRoot === undefined
                ? undefined
                : { [ROOT]: { description: { text: 'The root of the repository.' } } },
            invocations: [
              {
                executionSuccessful: unread.length === 0,
                toolExecutionNotifications: [
                  ...unread.map(({ file, message }) => ({
                    level: 'error',
                    message: { text: plain(`${file} ${message}`) },
                  })),
                  ...(leftOut === undefined
                    ? []
                    : [
                        {
                          level: 'warning',
                          message: {
                            text: `${leftOut} left out: a host takes at most ${SARIF_RESULTS.most}, and these are the gravest.`,
                          },
                        },
                      ]),
                ],
                properties: { on: formatDate(on) },
              },
            ],
            results: [],
          },
        ],
      };
      // Result by result: the text of all may be longer than strings can be.
      const [before, after] = `${jsonText(log, 2)}\n`.split('"results": []') as [string, string];
      write(`${before}"results": [`);
      found.forEach(({ finding, fixes }, i) => {
        const result = {
          ruleId: finding.rule,
          ruleIndex: rules.indexOf(finding.rule),
          level: finding.level,
          message: { text: words(finding) },
          locations: [placeOf(finding.file, finding)],
          // JSON.stringify omits undefined members.
          relatedLocations: finding.related?.slice(0, SARIF_LOCATIONS.most).map((place, id) => ({
            id,
            ...placeOf(place.file, place),
            message: { text: plain(place.message) },
          })),
          partialFingerprints: { [FINGERPRINT]: identities[i] },
          baselineState: since === undefined ? undefined : 'new',
          // Either all results have suppressions or none.
          suppressions: suppressed ? suppressions(finding) : undefined,
          fixes: fixes?.map(fix => fixOf(fix, artifact(shown(finding.file), fromRoot))),
          properties: { grade: finding.grade, tree: finding.tree, subject: finding.subject },
        };
        write((i === 0 ? '\n' : ',\n') + jsonText(result, 2).replace(/^/gm, INDENT));
      });
      write(`${found.length > 0 ? `\n${INDENT.slice(2)}` : ''}]${after}`);
      return leftOut;
    },
  };
};

/** Of a result. */
const INDENT = ' '.repeat(8);

const fixOf = ({ title, edits }: ShownFix, file: ArtifactLocation) => ({
  description: { text: plain(title) },
  artifactChanges: [
    {
      artifactLocation: file,
      replacements: edits.map(({ line, column, endLine, endColumn, text }) => ({
        deletedRegion: { startLine: line, startColumn: column, endLine, endColumn },
        insertedContent: { text: sanitize(text) },
      })),
    },
  ],
});

/** Escapes placeholders and embedded links (sections 3.11.5 and 3.11.6). */
const plain = (text: string): string =>
  sanitize(text)
    .replace(/[{}]/g, '$&$&')
    .replace(/\[(?=[^[\]]*\]\()|\](?=\()/g, '\\$&');

const words = ({ message, remedy, caution }: Finding): string =>
  plain([message, remedy, ...(caution === undefined ? [] : [caution])].join(' '));

function descriptor(name: string) {
  const rule = ruleNamed(name);
  if (!rule) return { id: name, shortDescription: { text: 'notation error' } };
  return {
    id: name,
    shortDescription: { text: rule.summary },
    fullDescription: { text: rule.explanation.trim() },
    help: {
      text: [
        rule.explanation.trim(),
        `Limitations: ${rule.limitations}`,
        ...rule.sources.map(({ full, url }) => `${full}${url === undefined ? '' : ` ${url}`}`),
      ].join('\n\n'),
      markdown: [
        rule.explanation.trim(),
        `**Limitations:** ${rule.limitations}`,
        rule.sources.map(({ full, url }) => `- ${full}${url === undefined ? '' : ` <${url}>`}`).join('\n'),
      ].join('\n\n'),
    },
    defaultConfiguration: { level: rule.level },
    properties: { group: rule.group, acceptable: rule.acceptable },
  };
}

interface Region {
  readonly line: number;
  readonly column: number;
  readonly endLine?: number;
  readonly endColumn?: number;
}

const location = (file: ArtifactLocation, { line, column, endLine, endColumn }: Region) => ({
  physicalLocation: {
    artifactLocation: file,
    region: { startLine: line, startColumn: column, endLine, endColumn },
  },
});

interface ArtifactLocation {
  /** A relative reference with reserved characters escaped. */
  readonly uri: string;
  readonly uriBaseId?: string;
}

/** @param file relative to the working folder */
function artifact(file: string, fromRoot: string | undefined): ArtifactLocation {
  const inRoot = fromRoot === undefined ? undefined : joined(fromRoot, file);
  return inRoot === undefined ? { uri: uriOf(file) } : { uri: uriOf(inRoot), uriBaseId: ROOT };
}

/** Undefined where the path leads out of the repository. */
function joined(folder: string, file: string): string | undefined {
  const parts = folder === '' ? [] : folder.split('/');
  for (const part of file.split('/')) {
    if (part !== '..') parts.push(part);
    else if (parts.pop() === undefined) return undefined;
  }
  return parts.join('/');
}

const uriOf = (file: string): string => file.split('/').map(encodeURIComponent).join('/');

const suppressions = ({ accepted }: Finding) =>
  accepted
    ? [
        {
          // The accept block is in the inventory.
          kind: 'inSource',
          status: 'accepted',
          justification: acceptedWords(accepted),
          properties: { by: accepted.by, until: formatDate(accepted.until), because: accepted.because },
        },
      ]
    : [];
