/** What hosts of repositories take of findings, by their published limits. */

interface HostLimit {
  readonly most: number;
  readonly source: string;
}

/** Results of a run of SARIF; a host shows the gravest 5,000 of them. */
export const SARIF_RESULTS: HostLimit = {
  most: 25_000,
  source:
    'GitHub Docs, "SARIF results exceed one or more limits", https://docs.github.com/en/code-security/code-scanning/troubleshooting-sarif-uploads/results-exceed-limit, read 2026-11-30',
};

/** Places that a result may refer to. */
export const SARIF_LOCATIONS: HostLimit = { most: 1000, source: SARIF_RESULTS.source };

/** Bytes of a comment in a review: the limit is 65,536 characters, which are at least a byte each. */
export const COMMENT_BYTES: HostLimit = {
  most: 65_000,
  source:
    'GitHub REST API, creating a comment: "Body is too long (maximum is 65536 characters)", by its answers as quoted in public threads',
};
