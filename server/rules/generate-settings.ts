/** Writes the settings of the findings into the manifest: the level of each, with what it is about. */
import { readFileSync, writeFileSync } from 'node:fs';
import { allRules } from './all.ts';
import { levels } from './severities.ts';

interface Manifest {
  readonly contributes: { readonly configuration: { readonly properties: Record<string, unknown> } };
}

function perFinding(): Record<string, unknown> {
  return Object.fromEntries(
    allRules.map(({ slug, severity, page }) => [
      slug,
      {
        type: 'string',
        enum: levels,
        default: severity,
        description: `${page.title}.`,
      },
    ]),
  );
}

function properties(): Record<string, unknown> {
  return {
    'ampscribe.severity': {
      type: 'object',
      scope: 'resource',
      default: {},
      description:
        'How serious each finding is told to be: an error can burn, shock, arc or destroy, a warning breaks good practice, advice is worth knowing. To accept a single one, write allow in the spec, with the reason.',
      additionalProperties: false,
      properties: perFinding(),
    },
    'ampscribe.severityByFile': {
      type: 'object',
      scope: 'resource',
      default: {},
      description:
        'The same for some files only: a pattern for the end of their path, such as old/*.amps, and the levels that hold there.',
      additionalProperties: {
        type: 'object',
        propertyNames: { enum: allRules.map(({ slug }) => slug) },
        additionalProperties: { type: 'string', enum: levels },
      },
    },
  };
}

/** The manifest's text with the settings as they follow from the rules. */
export function manifestText(before: string): string {
  const manifest = JSON.parse(before) as Manifest;
  const { configuration } = manifest.contributes;
  const others = Object.entries(configuration.properties).filter(([name]) => !name.startsWith('ampscribe.severity'));
  const after = {
    ...manifest,
    contributes: {
      ...manifest.contributes,
      configuration: { ...configuration, properties: { ...properties(), ...Object.fromEntries(others) } },
    },
  };
  return `${JSON.stringify(after, null, 2)}\n`;
}

export function writeSettings(path: string): boolean {
  const before = readFileSync(path, 'utf8');
  const text = manifestText(before);
  if (before === text) return false;
  writeFileSync(path, text);
  return true;
}
