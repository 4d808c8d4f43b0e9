/** The picture over the protocol: opened whole, told by what changed, and back to the text. */
import { readFileSync } from 'node:fs';
import { setTimeout as pause } from 'node:timers/promises';
import { describe, expect, it } from 'vitest';
import type { Location } from 'vscode-languageserver/node';
import { drawingRoom } from '../../server/session/drawing-room.ts';
import {
  closePictureNotification,
  draftRequest,
  type ExportAnswer,
  openPictureRequest,
  type PictureChange,
  pictureChangedNotification,
  pictureElementsRequest,
  pictureExportRequest,
  pictureFiguresRequest,
  pictureSourceRequest,
  pictureTraceRequest,
  type SentFigures,
  type TraceAnswer,
  type WholePicture,
} from '../../server/session/picture-protocol.ts';
import { longest, quiet } from '../../server/session/refresher.ts';
import { connect, type Setting, type TestClient, until, uri } from './client.ts';
import { slowly } from './slowly.ts';
import { lamp, lampFromStock, stock } from './specs.ts';

interface View {
  readonly client: TestClient;
  readonly changes: PictureChange[];
  ask<T>(method: string, more?: object): Promise<T>;
}

async function view(text: string, setting: Setting = {}): Promise<View> {
  const client = await connect({ environment: { drawingRoom: drawingRoom() }, ...setting });
  const changes: PictureChange[] = [];
  client.connection.onNotification(pictureChangedNotification, (change: PictureChange) => {
    changes.push(change);
  });
  client.open('lamp.amps', text);
  return {
    client,
    changes,
    ask: (method, more = {}) => client.connection.sendRequest(method, { uri: uri('lamp.amps'), ...more }),
  };
}

const ids = ({ elements }: WholePicture) => elements.map(({ id }) => id);
const putIn = ({ patches }: PictureChange) => patches.flatMap((patch) => (patch.does === 'put' ? [patch.id] : []));
const removedIn = ({ patches }: PictureChange) => patches.flatMap((one) => (one.does === 'remove' ? [one.id] : []));

describe('a picture', () => {
  it('is given whole when it is opened', async () => {
    const { ask } = await view(lamp());
    const whole = await ask<WholePicture>(openPictureRequest);
    expect(ids(whole)).toEqual(expect.arrayContaining(['part:B1', 'part:F1', 'part:LAMP', 'core:W1/0', 'core:W3/0']));
    expect(whole.facts.title).toBe('Lamp');
    expect(whole.facts.loads).toEqual([{ name: 'LAMP' }]);
    expect(whole.facts.cases.length).toBeGreaterThan(0);
    expect(whole.facts.held).toBeUndefined();
    // Where things are written moves with every line above them, and never travels.
    expect(JSON.stringify(whole)).not.toContain('"source":{');
  });

  it('is null for a file that is not there', async () => {
    const { ask } = await view(lamp());
    expect(await ask(openPictureRequest, { uri: uri('nothing.amps') })).toBeNull();
  });

  it('is told by what changed, after a short quiet', async () => {
    const { client, changes, ask } = await view(lamp());
    const whole = await ask<WholePicture>(openPictureRequest);
    client.change('lamp.amps', { text: lamp().replace('1.4 m, LAMP', '1.7 m, LAMP') });
    await until('a change', () => changes.length > 0);
    const [change] = changes;
    if (change === undefined) throw new Error('no change');
    expect([change.from, change.to]).toEqual([whole.number, whole.number + 1]);
    expect(putIn(change)).toContain('core:W3/0');
    expect(putIn(change)).not.toContain('part:B1');
    expect(removedIn(change)).toEqual([]);
  });

  it('is the same after many edits as one that is opened then', async () => {
    const { client, changes, ask } = await view(lamp());
    const shown = new Map((await ask<WholePicture>(openPictureRequest)).elements.map((one) => [one.id, one]));
    const texts = [
      lamp('6 mm²'),
      `${lamp()}load FAN  12 W\nrun W4  4 mm² red, 1 m, F1:out to FAN:+\nrun W5  4 mm² black, 1 m, FAN:- to B1:-\n`,
      lamp('10 mm²').replaceAll('LAMP', 'GLOW'),
    ];
    for (const text of texts) {
      const before = changes.length;
      client.change('lamp.amps', { text });
      await until('a change', () => changes.length > before);
    }
    for (const { patches } of changes)
      for (const patch of patches) {
        if (patch.does === 'put') shown.set(patch.id, patch.element);
        if (patch.does === 'remove') shown.delete(patch.id);
      }
    const whole = await ask<WholePicture>(openPictureRequest);
    const byId = (elements: Iterable<{ readonly id: string }>) => [...elements].sort((a, b) => (a.id < b.id ? -1 : 1));
    expect(byId(shown.values())).toEqual(byId(whole.elements));
  });

  it('follows continuous typing, without a pause in it', async () => {
    const { client, changes, ask } = await view(lamp());
    await ask<WholePicture>(openPictureRequest);
    const began = performance.now();
    for (let i = 0; performance.now() < began + 3 * longest; i += 1) {
      client.change('lamp.amps', { text: lamp().replace('1.4 m', `1.${10 + i} m`) });
      await pause(quiet / 3);
    }
    expect(changes.length).toBeGreaterThanOrEqual(2);
    expect(changes.length).toBeLessThan(10);
  });

  it('follows it too where all is worked out more slowly than one types', async () => {
    const { analyse } = slowly({ named: 0, whole: 600 });
    const { client, changes, ask } = await view(lamp(), { workings: { analyse } });
    await ask<WholePicture>(openPictureRequest);
    const began = performance.now();
    for (let i = 0; performance.now() < began + 4 * longest; i += 1) {
      client.change('lamp.amps', { text: lamp().replace('1.4 m', `1.${10 + i} m`) });
      await pause(quiet / 2);
    }
    expect(changes.length).toBeGreaterThanOrEqual(2);
    expect(changes.flatMap(putIn)).toContain('core:W3/0');
    // What is known when it rests is that of the last text, worked out.
    const last = lamp('0.5 mm²');
    client.change('lamp.amps', { text: last });
    const isTold = ({ patches }: PictureChange) => JSON.stringify(patches).includes('cable-too-small');
    await until('findings of the last text', () => changes.some(isTold));
  });

  it('stays as it was while something is written half way, and says so', async () => {
    const { client, changes, ask } = await view(lamp());
    await ask<WholePicture>(openPictureRequest);
    const broken = lamp().replace('fuse F1  20', 'fuse F  20');
    client.change('lamp.amps', { text: broken });
    await until('a change', () => changes.length > 0);
    expect(changes[0]).toMatchObject({ patches: [], facts: { title: 'Lamp' } });
    expect(changes[0]?.facts.held?.message).toMatch(/F1/);
    expect(changes[0]?.facts.held?.at).toEqual({ line: 5, character: broken.split('\n')[5]?.indexOf('F1') });
    client.change('lamp.amps', { text: lamp().replace('fuse F1  20', 'fuse F1  25') });
    await until('another', () => changes.length > 1);
    expect(changes[1]?.facts.held).toBeUndefined();
    expect(changes[1]?.patches.length).toBeGreaterThan(0);
    // Whoever wants it all the same is shown what can be read.
    client.change('lamp.amps', { text: broken });
    await until('a third', () => changes.length > 2);
    const whole = await ask<WholePicture>(openPictureRequest, { asItStands: true });
    expect(ids(whole)).toContain('part:F');
    expect(ids(whole)).not.toContain('part:F1');
  });

  it.each([
    ['its declaration is written anew', 'enclosure BOX plastic', 'enclosure BO plastic'],
    ['the word that declares it is broken', 'enclosure BOX plastic', 'enclosur BOX plastic'],
    ['a part names it half way', ', in BOX', ', in BO'],
  ])('keeps a box that stands while %s', async (_what, said, typed) => {
    const boxed = `${lamp().replace(/^(fuse F1 .*)$/m, '$1, in BOX')}enclosure BOX plastic, IP44\n`;
    const { client, changes, ask } = await view(boxed);
    expect(ids(await ask<WholePicture>(openPictureRequest))).toContain('enclosure:BOX');
    const broken = boxed.replace(said, typed);
    expect(broken).not.toBe(boxed);
    client.change('lamp.amps', { text: broken });
    await until('a change', () => changes.length > 0);
    expect(changes[0]).toMatchObject({ patches: [] });
    expect(changes[0]?.facts.held?.message).toMatch(/BO|enclosur/);
  });

  it('is told of nothing once it is closed', async () => {
    const { client, changes, ask } = await view(lamp());
    await ask<WholePicture>(openPictureRequest);
    await client.connection.sendNotification(closePictureNotification, { uri: uri('lamp.amps') });
    client.change('lamp.amps', { text: lamp('16 mm²') });
    await pause(quiet + longest);
    expect(changes).toEqual([]);
  });

  it('follows the files that its spec uses', async () => {
    const disk = { 'stock.amps': stock('4 mm²') };
    const { client, changes, ask } = await view(lampFromStock, { disk });
    const whole = await ask<WholePicture>(openPictureRequest);
    expect(JSON.stringify(whole.elements)).toContain('4 mm²');
    disk['stock.amps'] = stock('6 mm²');
    client.fileChanged('stock.amps');
    await until('a change', () => changes.length > 0);
    expect(putIn(changes[0] as PictureChange)).toContain('core:W1/0');
    expect(JSON.stringify(changes[0]?.patches)).toContain('6 mm²');
  });

  it('is drawn by the client where the server cannot start a thread', async () => {
    const client = await connect();
    const room = drawingRoom();
    let tasks = 0;
    client.connection.onRequest(draftRequest, (task) => {
      tasks += 1;
      return room.run(task);
    });
    client.open('lamp.amps', lamp());
    const whole = await client.connection.sendRequest<WholePicture>(openPictureRequest, { uri: uri('lamp.amps') });
    expect(ids(whole)).toContain('part:LAMP');
    expect(tasks).toBe(2);
  });

  it('that cannot be drawn is null, with a line in the log', async () => {
    const failing = { run: () => Promise.reject(new Error('no room')) };
    const { client, ask } = await view(lamp(), { environment: { drawingRoom: failing } });
    expect(await ask(openPictureRequest)).toBeNull();
    await until('a line', () => client.logged.some((line) => line.includes('picture failed: Error: no room')));
  });
});

describe('beside the picture', () => {
  it('elements and words find each other', async () => {
    const { client, ask } = await view(lamp());
    await ask<WholePicture>(openPictureRequest);
    const at = async (line: number, character: number) =>
      ask<string[]>(pictureElementsRequest, { file: uri('lamp.amps'), position: { line, character } });
    expect(await at(2, 0)).toEqual(['part:F1']);
    expect(await at(6, 3)).toEqual(['core:W2/0']);
    expect(await at(4, 0)).toEqual([]);
    const source = (element: string) => ask<Location | null>(pictureSourceRequest, { element });
    expect(await source('core:W2/0')).toEqual({
      uri: uri('lamp.amps'),
      range: { start: { line: 6, character: 4 }, end: { line: 6, character: 6 } },
    });
    // As the text is now, not as it was when the picture was drawn.
    client.change('lamp.amps', { text: `# one more line\n${lamp()}` });
    expect((await source('part:LAMP'))?.range.start).toEqual({ line: 4, character: 5 });
    expect(await source('part:NOBODY')).toBeNull();
  });

  it('findings stand on what they are about, and lead to their words', async () => {
    const { ask } = await view(lamp('0.5 mm²'));
    const { marks } = await ask<WholePicture>(openPictureRequest);
    const mark = marks.find(({ slug }) => slug === 'cable-too-small');
    expect(mark).toMatchObject({ element: 'core:W2/0', severity: 'error' });
    const source = await ask<Location | null>(pictureSourceRequest, { element: mark?.id });
    expect(source?.range.start).toEqual({ line: 6, character: 8 });
  });

  it('a case has its figures, and a load its way', async () => {
    const { ask } = await view(lamp());
    const { facts } = await ask<WholePicture>(openPictureRequest);
    const caseName = facts.cases[0]?.name;
    const figures = await ask<SentFigures>(pictureFiguresRequest, { caseName });
    expect(new Map(figures.cores).get('core:W2/0')?.amps).toBeGreaterThan(1.5);
    expect(new Map(figures.terminals).get('terminal:LAMP:+')).toBeGreaterThan(11);
    const trace = await ask<TraceAnswer>(pictureTraceRequest, { caseName, load: 'LAMP' });
    expect(trace?.elements).toContain('core:W3/0');
    expect(await ask(pictureTraceRequest, { caseName, load: 'NOBODY' })).toBeNull();
    expect(await ask(pictureFiguresRequest, { caseName: 'no such case' })).toBeNull();
  });

  it('a cursor in a cable of several cores finds the one of its line', async () => {
    const text = readFileSync('samples/spokewagon.amps', 'utf8');
    const disk = { 'stock.amps': readFileSync('samples/stock.amps', 'utf8') };
    const { ask } = await view(text, { disk });
    const { elements } = await ask<WholePicture>(openPictureRequest);
    const lines = text.split('\n');
    const first = lines.findIndex((line, i) => /^run /.test(line) && /^ {4}(?:red|brown)/.test(lines[i + 1] ?? ''));
    const here = await ask<string[]>(pictureElementsRequest, {
      file: uri('lamp.amps'),
      position: { line: first + 1, character: 6 },
    });
    expect(here).toHaveLength(1);
    expect(elements.map(({ id }) => id)).toContain(here[0]);
    const whole = await ask<string[]>(pictureElementsRequest, {
      file: uri('lamp.amps'),
      position: { line: first, character: 2 },
    });
    expect(whole.length).toBeGreaterThan(1);
    expect(whole).toContain(here[0]);
  });
});

describe('a picture as a file', () => {
  const textOf = (answer: ExportAnswer) =>
    answer !== null && 'base64' in answer ? Buffer.from(answer.base64, 'base64').toString('utf8') : '';

  it('is SVG with what the view shows: its case, its shades and their key', async () => {
    const { ask } = await view(lamp());
    const { facts } = await ask<WholePicture>(openPictureRequest);
    const caseName = facts.cases[0]?.name ?? '';
    const plain = await ask<ExportAnswer>(pictureExportRequest, { format: 'svg', caseName: '', shade: 'none' });
    expect(textOf(plain)).toMatch(/^<svg /);
    expect(textOf(plain)).toContain('data-id="core:W2/0"');
    expect(textOf(plain)).not.toContain('class="volts"');
    const shaded = await ask<ExportAnswer>(pictureExportRequest, { format: 'svg', caseName, shade: 'capacity' });
    for (const words of ['class="volts"', 'class="shade shade-', 'over its capacity', `Case ${caseName}`])
      expect(textOf(shaded)).toContain(words);
    expect(textOf(shaded)).not.toMatch(/<script|var\(/);
  });

  it('says in words what cannot be made where it is', async () => {
    const { ask } = await view(lamp());
    await ask<WholePicture>(openPictureRequest);
    const answer = await ask<ExportAnswer>(pictureExportRequest, { format: 'pdf', caseName: '', shade: 'none' });
    expect(answer).toEqual({ trouble: expect.stringMatching(/^PDF cannot be made here: save it as SVG/) });
  });

  it('is null for a picture that is not open', async () => {
    const { ask } = await view(lamp());
    expect(await ask(pictureExportRequest, { format: 'svg', caseName: '', shade: 'none' })).toBeNull();
  });
});
