/** Names that some file systems keep for devices. */
const RESERVED = /^(con|prn|aux|nul|com\d|lpt\d)$/;

export const NAME_PATTERN = '^[a-z][a-z0-9-]{0,39}$';

const PATTERN = new RegExp(NAME_PATTERN);

/**
 * Whether a scenario may be stored under this name: small letters, digits and hyphens, so that no name leaves the
 * folder, hides, or means another one where capitals do not count.
 */
export function isScenarioName(name: string): boolean {
  return PATTERN.test(name) && !RESERVED.test(name);
}
