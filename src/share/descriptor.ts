import type { Licence } from './licences.ts';
import { CONSENT_WORDS, methodWords, PACKAGE_TITLE, thresholdWords } from './package-words.ts';
import type { SharedPackage } from './shared-package.ts';
import { type SharedFile, sha256 } from './table-schema.ts';

/** Version of what a package of ours holds; a reader refuses others. */
export const PACKAGE_SCHEMA = 'linehours/package@1';
/** Name of the descriptor in a package's folder, by the standard. */
export const DESCRIPTOR_FILE = 'datapackage.json';

/**
 * The descriptor of a package.
 * Source: Data Package 2.0 and Table Schema 2.0 (Frictionless Data). `fieldsMatch` is left out: text
 * and profile of the standard disagree on its type, and its default is what holds here. The name
 * tells no boat and no season; nor does anything else.
 *
 * @param release number of the release in the owner's ledger.
 */
export function descriptorFile(
  shared: SharedPackage,
  files: readonly SharedFile[],
  release: number,
): SharedFile {
  const { choices, content, vessels, account } = shared;
  const resources = files.map((file) => file.resource);
  const descriptor = {
    $schema: 'https://datapackage.org/profiles/2.0/datapackage.json',
    name: content.tier === 'cells' ? 'catch-and-effort' : 'catch-and-effort-by-trip',
    id: `sha256:${sha256(JSON.stringify(resources))}`,
    title: PACKAGE_TITLE,
    description: methodWords(shared),
    version: `${release}.0.0`,
    keywords: ['fishery', 'catch', 'effort', 'recreational fishing', 'live bait'],
    ...licenceProperties(choices.licence),
    sources: [{ title: 'Logs kept on board by the vessels themselves' }],
    linehours: {
      schema: PACKAGE_SCHEMA,
      tier: content.tier,
      gear: choices.gear,
      effort: shared.basis,
      assumed_effort: shared.isAssumed,
      thresholds: {
        min_vessels: choices.thresholds.minVessels,
        min_trips: choices.thresholds.minTrips,
        text: thresholdWords(shared),
      },
      consent: choices.consent ? { given: true, text: CONSENT_WORDS } : { given: false },
      noise:
        choices.noise === null
          ? null
          : {
              mechanism: 'two-sided geometric',
              epsilon: choices.noise.epsilon,
              clip: choices.noise.clip,
            },
      vessels,
      trips: account.trips,
    },
    resources,
  };
  return {
    name: DESCRIPTOR_FILE,
    text: `${JSON.stringify(descriptor, null, 2)}\n`,
    resource: null,
  };
}

function licenceProperties(licence: Licence | null) {
  return licence === null ? {} : { licenses: [licence] };
}
