/** Where every element of the diagram is written, so that a click finds its words and a cursor finds the element. */
import type { Model, Named, Place } from '../../model/model.ts';
import type { SourceRange } from './scene.ts';

export function sourcesOf(model: Model): Map<string, SourceRange> {
  const sources = new Map<string, SourceRange>();
  for (const part of model.parts.values()) {
    const range = rangeOf(part);
    sources.set(part.kind.word === 'enclosure' ? `enclosure:${part.name}` : `part:${part.name}`, range);
    for (const { id } of part.terminals) sources.set(`terminal:${id}`, range);
  }
  for (const location of model.locations.values()) sources.set(`place:${location.name}`, rangeOf(location));
  for (const run of model.runs.values()) {
    const whole = rangeOf(run);
    sources.set(`cable:${run.name}`, whole);
    for (const core of run.cores) {
      const { uri, span } = core.place;
      const id = `core:${run.name}/${core.index}`;
      // The only core of a run is written all over its statement.
      sources.set(id, run.cores.length === 1 ? whole : { ...whole, uri, start: span.start, end: span.end });
      run.passages.forEach(({ enclosure, place }) => {
        if (enclosure !== undefined)
          sources.set(`passage:${run.name}/${core.index}@${enclosure.name}`, { ...whole, ...spanOf(place) });
      });
    }
  }
  return sources;
}

function spanOf({ uri, span: { start, end } }: Place): Pick<SourceRange, 'uri' | 'start' | 'end'> {
  return { uri, start, end };
}

function rangeOf({ origin: { file, statement }, namePlace: { span } }: Named): SourceRange {
  const { offset, node } = statement;
  return {
    uri: file.uri,
    start: offset,
    end: offset + node.text.trimEnd().length,
    nameStart: span.start,
    nameEnd: span.end,
  };
}
