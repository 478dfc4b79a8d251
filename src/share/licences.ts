/** A licence as a Data Package names it. */
export interface Licence {
  /** Identifier of the Open Definition; absent for terms at an address of the owner's own. */
  readonly name?: string;
  readonly path: string;
  readonly title?: string;
}

/**
 * Licences the owner may choose from by name.
 * Source: Open Definition, list of conformant licences.
 */
export const LICENCES: Readonly<Record<string, Licence>> = {
  'CC0-1.0': {
    name: 'CC0-1.0',
    path: 'https://creativecommons.org/publicdomain/zero/1.0/',
    title: 'Creative Commons Zero 1.0',
  },
  'CC-BY-4.0': {
    name: 'CC-BY-4.0',
    path: 'https://creativecommons.org/licenses/by/4.0/',
    title: 'Creative Commons Attribution 4.0',
  },
  'CC-BY-SA-4.0': {
    name: 'CC-BY-SA-4.0',
    path: 'https://creativecommons.org/licenses/by-sa/4.0/',
    title: 'Creative Commons Attribution Share-Alike 4.0',
  },
  'ODC-BY-1.0': {
    name: 'ODC-BY-1.0',
    path: 'https://opendatacommons.org/licenses/by/1-0/',
    title: 'Open Data Commons Attribution 1.0',
  },
  'ODbL-1.0': {
    name: 'ODbL-1.0',
    path: 'https://opendatacommons.org/licenses/odbl/1-0/',
    title: 'Open Data Commons Open Database Licence 1.0',
  },
  'PDDL-1.0': {
    name: 'PDDL-1.0',
    path: 'https://opendatacommons.org/licenses/pddl/1-0/',
    title: 'Open Data Commons Public Domain Dedication and Licence 1.0',
  },
};
