/** Specs of several files: what comes in, circles, clashes, and files that are not there. */
import { describe, expect, it } from 'vitest';
import { ParseCache } from '../../grammar/parse.ts';
import { readFiles } from '../../server/model/files.ts';
import { type Files, memory, modelOf, onlyProblem, problemsIn } from './built.ts';

describe('use', () => {
  const files: Files = {
    'stock.amps': 'stock thin cable 1.5 mm² red\nstock lamp load 5 W\nplace LOFT 50 °C\n',
    'roof.amps': 'use "stock.amps"\nsplice AA\nload LAMP = lamp, at LOFT\nrun W9 = thin, 1 m, AA to LAMP:+\n',
  };

  it('brings in stock, places, parts and runs, also those of files used there', () => {
    const text = 'use "roof.amps"\nsplice BB\nrun W1 = thin, 2 m, BB to LAMP:-\n';
    const model = modelOf(text, files);
    expect(model.problems).toEqual([]);
    expect(model.files.map(({ uri }) => uri)).toEqual(
      ['spec.amps', 'roof.amps', 'stock.amps'].map((name) => `memory:///${name}`),
    );
    expect([...model.parts.keys()].sort()).toEqual(['AA', 'BB', 'LAMP']);
    expect([...model.runs.keys()]).toEqual(['W1', 'W9']);
    expect(model.runs.get('W1')?.size).toMatchObject({ areaMm2: 1.5 });
    expect(model.parts.get('LAMP')?.location?.celsius).toBe(50);
  });

  it('reads a file once, however many use it', () => {
    const read: string[] = [];
    const source = memory({ ...files, 'spec.amps': 'use "stock.amps"\nuse "roof.amps"\nuse "stock.amps"\n' });
    readFiles(
      'memory:///spec.amps',
      {
        ...source,
        read: (uri) => {
          read.push(uri);
          return source.read(uri);
        },
      },
      () => new ParseCache(),
    );
    expect(read.sort()).toEqual(['roof.amps', 'spec.amps', 'stock.amps'].map((name) => `memory:///${name}`));
  });

  it('of a file that is not there says why', () => {
    expect(problemsIn('use "none.amps"\n')).toEqual(['use-missing ""none.amps""']);
    expect(onlyProblem('use "none.amps"\n').message).toBe(
      '“none.amps” cannot be used (it is not there): check its path, which counts from this file.',
    );
    expect(onlyProblem('use ""\n').message).toMatch(/names no file/);
  });

  it('survives a source that throws', () => {
    const source = {
      read: (uri: string) => {
        if (uri === 'spec') return { text: 'use "a"\nuse "b"\nfuse F1 3 A\n' };
        throw new Error('the disk is gone');
      },
      resolve: (_: string, path: string) => {
        if (path === 'b') throw new URIError('no path');
        return path;
      },
    };
    const { problems } = readFiles('spec', source, () => new ParseCache());
    expect(problems.map(({ message }) => message)).toEqual([
      '“a” cannot be used (the disk is gone): check its path, which counts from this file.',
      'This use names no file: put its path between the quotes.',
    ]);
  });

  it('tells of a spec that cannot be read itself', () => {
    const { files: read, problems } = readFiles(
      'x',
      { read: () => ({ missing: 'not UTF-8 text' }), resolve: (_, path) => path },
      () => new ParseCache(),
    );
    expect(read).toHaveLength(1);
    expect(problems.map(({ message }) => message)).toEqual(['This file cannot be read (not UTF-8 text).']);
  });
});

describe('circle-of-use', () => {
  it('stands at the use that leads into it, with the circle named', () => {
    const found = onlyProblem('splice AA\nuse "a.amps"\n', {
      'a.amps': 'use "b.amps"\n',
      'b.amps': 'use "spec.amps"\n',
    });
    expect(found.slug).toBe('circle-of-use');
    expect(found.message).toContain('(spec.amps → a.amps → b.amps → spec.amps)');
    expect(problemsIn('splice AA\nuse "a.amps"\n', { 'a.amps': 'use "spec.amps"\n' })).toEqual([
      'circle-of-use ""a.amps""',
    ]);
  });

  it('of one file', () => {
    expect(onlyProblem('use "spec.amps"\n').message).toBe(
      'This file uses itself (spec.amps → spec.amps): take this use out.',
    );
  });

  it('among used files is told of there, and once here', () => {
    const files = { 'a.amps': 'use "b.amps"\n', 'b.amps': 'use "a.amps"\n' };
    expect(problemsIn('use "a.amps"\nuse "b.amps"\n', files)).toEqual(['used-file-has-problems ""a.amps""']);
  });

  it('is no circle when two files use a third', () => {
    expect(
      problemsIn('use "a.amps"\nuse "b.amps"\n', {
        'a.amps': 'use "c.amps"\n',
        'b.amps': 'use "c.amps"\n',
        'c.amps': 'splice AA\n',
      }),
    ).toEqual([]);
  });
});

describe('names of used files', () => {
  it('clash at the own declaration', () => {
    const text = 'use "a.amps"\nfuse F1 3 A\n';
    const found = onlyProblem(text, { 'a.amps': 'load F1 5 W\n' });
    expect(problemsIn(text, { 'a.amps': 'load F1 5 W\n' })).toEqual(['name-twice "F1"']);
    expect(found.message).toBe(
      '“F1” is the name of a load in a.amps already, which this spec uses: give this fuse another name.',
    );
    expect(found.related[0]?.place.uri).toBe('memory:///a.amps');
  });

  it('clash at the second of two uses', () => {
    const files = { 'a.amps': 'load F1 5 W\n', 'b.amps': 'fuse F1 5 A\n' };
    expect(problemsIn('use "a.amps"\nuse "b.amps"\n', files)).toEqual(['name-twice ""b.amps""']);
    expect(onlyProblem('use "a.amps"\nuse "b.amps"\n', files).message).toMatch(
      /^a\.amps and b\.amps both declare “F1”/,
    );
  });

  it('clash where they are used together, if that is in a used file', () => {
    const files = { 'a.amps': 'use "b.amps"\nload F1 5 W\n', 'b.amps': 'fuse F1 5 A\n' };
    expect(problemsIn('use "a.amps"\n', files)).toEqual([]);
    expect(problemsIn(files['a.amps'], files)).toEqual(['name-twice "F1"']);
  });
});

describe('problems of used files', () => {
  it('are told of once at the use', () => {
    const text = 'use "a.amps"\n';
    const files = { 'a.amps': 'fuse F1 3\nfuse F2 3,5 A\nload L at LOFT\n' };
    const found = onlyProblem(text, files);
    expect(problemsIn(text, files)).toEqual(['used-file-has-problems ""a.amps""']);
    expect(found.figures).toEqual({ file: 'a.amps', problems: 4 });
    expect(found.related[0]?.place.uri).toBe('memory:///a.amps');
  });

  it('do not count what a file only used leaves unconnected', () => {
    expect(
      problemsIn('use "a.amps"\nsplice AA and BB\nrun W1 1 mm², 1 m, AA to BB\n', { 'a.amps': 'fuse F1 3 A\n' }),
    ).toEqual([]);
  });
});
