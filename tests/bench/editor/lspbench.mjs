#!/usr/bin/env node
// lspbench.mjs - latency / memory harness for any stdio language server. Plain Node >= 18, no dependencies.
//
//   node lspbench.mjs [options] -- <server command> [args...]
//
//   --file F            document to open (required)           --lang ID      languageId (required)
//   --edits E.json      edit spec (required), see below       --name S       label for the output
//   --n 60              measured edits (half break, half restore)
//   --warmup 6          edits done first, reported apart ("edit.cold"), not in p50/p95
//   --gap 100           idle ms between an answer and the next edit
//   --diag auto|push|pull   auto: pull if the server announces diagnosticProvider, else push.
//                       push: the client does not advertise textDocument.diagnostic
//   --root DIR          workspace folder (default: the file's directory)
//   --settings S.json   answers workspace/configuration and is sent as didChangeConfiguration
//   --init I.json       initializationOptions
//   --timeout 60000     ms an answer may take before it is a miss
//   --budget 60         s: stop the edit phase early after this long (never before --min edits)
//   --min 20            edits done at least, whatever the budget
//   --settle 1500       ms of silence after the first diagnostics that ends the opening phase
//   --requests 30       hover and completion requests, each     --burst 6    bursts of 9 edits, 30 ms apart
//   --after 15           completions asked right after an edit
//   --min-clean 1        the opening phase goes on until the clean file shows at least this many diagnostics (the sentinel)
//   --reps 10            documentSymbol and semanticTokens requests, each (formatting: at most 5)
//   --skip a,b          phases to skip: hover,completion,completionAfterEdit,documentSymbol,semanticTokens,formatting,burst
//   --json OUT.json     write the result there too            --quiet        no readable line on stderr
//   --trace             protocol messages (shortened) to stderr
//
// Edit spec E.json:
//   { "find":"text", "replace":"text2",     each occurrence of find is a spot; a toggle changes only the differing characters
//     "spots": 15,                          how many occurrences are used, spread evenly over the file, visited in a shuffled order
//     "sentinel": "strict"|"line",          strict (default): the diagnostics D0 of the clean file must all still be there after a break,
//                                           and after a restore the set must equal D0. line: only the edited line is compared.
//     "lineTol": 0,                         lines of tolerance between the edit and its diagnostic
//     "message": "regex",                   the new diagnostic's message must match (optional)
//     "fresh": {"find":"..","replace":"..#.."}, breaks to texts that never were before (# becomes a number), told apart as "fresh"
//     "hover": {"find":"..","at":1}, "completion": {"find":"..","at":"end"}, "burst": {"find":"..","at":"end"} }
//   Give the file one permanent error ("sentinel"), so that a half-finished publish (e.g. syntax only) is not mistaken for an answer.
//
// What is measured: "edit" = ms from just before didChange is written to the server's stdin until the last byte of the message that
// carries diagnostics that reflect this edit (break: a new diagnostic on the edited line; restore: it is gone), with the matching
// document version when the server sends one. Messages that do not reflect the edit are counted ("notReflecting") and waited past.
import { spawn } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { performance } from 'node:perf_hooks';
import { pathToFileURL } from 'node:url';

// ---------- arguments
const argv = process.argv.slice(2);
const dd = argv.indexOf('--');
if (dd < 0) {
  console.error('usage: lspbench.mjs [options] -- command args...   (see the head of this file)');
  process.exit(2);
}
const cmd = argv.slice(dd + 1);
const opt = {};
const flags = new Set(['trace', 'quiet']);
for (let i = 0; i < dd; i++) {
  const k = argv[i].replace(/^--/, '');
  if (flags.has(k)) opt[k] = true;
  else opt[k] = argv[++i];
}
const num = (k, d) => (opt[k] === undefined ? d : Number(opt[k]));
const FILE = path.resolve(opt.file);
const LANG = opt.lang;
const SPEC = JSON.parse(fs.readFileSync(opt.edits, 'utf8'));
const N = num('n', 60),
  WARM = num('warmup', 6),
  GAP = num('gap', 100),
  TIMEOUT = num('timeout', 60000),
  BUDGET = num('budget', 60) * 1000,
  SETTLE = num('settle', 1500),
  REQ = num('requests', 30),
  BURST = num('burst', 6),
  MINED = num('min', 20),
  MINCLEAN = num('min-clean', 1);
const SKIP = new Set((opt.skip || '').split(',').filter(Boolean));
const ROOT = path.resolve(opt.root || path.dirname(FILE));
const SETTINGS = opt.settings ? JSON.parse(fs.readFileSync(opt.settings, 'utf8')) : {};
const INIT = opt.init ? JSON.parse(fs.readFileSync(opt.init, 'utf8')) : undefined;
const wantDiag = opt.diag || 'auto';
const URI = pathToFileURL(FILE).href;
const sleep = (ms) => new Promise((r) => setTimeout(r, ms));
const now = () => performance.now();

// ---------- machine noise: a fixed piece of JS work, best-of and median of 9
function calibrate() {
  const a = [];
  for (let r = 0; r < 9; r++) {
    const t = now();
    let x = 1;
    for (let i = 0; i < 6e6; i++) x = (x * 1103515245 + 12345) & 0x7fffffff;
    a.push(now() - t);
    if (x === 42) console.log(x);
  }
  a.sort((p, q) => p - q);
  return { min: r2(a[0]), median: r2(a[4]), max: r2(a[8]) };
}
const r2 = (x) => (x === undefined || x === null || Number.isNaN(x) ? null : Math.round(x * 100) / 100);
function stats(a) {
  if (!a.length) return { n: 0 };
  const s = [...a].sort((p, q) => p - q);
  const q = (p) => s[Math.min(s.length - 1, Math.max(0, Math.ceil(p * s.length) - 1))];
  return {
    n: s.length,
    min: r2(s[0]),
    p50: r2(q(0.5)),
    p95: r2(q(0.95)),
    max: r2(s[s.length - 1]),
    mean: r2(s.reduce((p, c) => p + c, 0) / s.length),
  };
}

// ---------- text and spots
const clean = fs.readFileSync(FILE, 'utf8');
const lineStarts = [0];
for (let i = 0; i < clean.length; i++) if (clean.charCodeAt(i) === 10) lineStarts.push(i + 1);
const LINES = lineStarts.length - (clean.endsWith('\n') ? 1 : 0);
function posAt(off) {
  let lo = 0,
    hi = lineStarts.length - 1;
  while (lo < hi) {
    const m = (lo + hi + 1) >> 1;
    if (lineStarts[m] <= off) lo = m;
    else hi = m - 1;
  }
  return { line: lo, character: off - lineStarts[lo] };
}
function occurrences(s) {
  const r = [];
  for (let i = clean.indexOf(s); i >= 0; i = clean.indexOf(s, i + 1)) r.push(i);
  return r;
}
function spread(list, k) {
  if (list.length <= k) return [...list];
  const r = [];
  for (let i = 0; i < k; i++) r.push(list[Math.round((i * (list.length - 1)) / (k - 1))]);
  return [...new Set(r)];
}
let seed = 12345;
const rnd = () => {
  seed = (seed * 1103515245 + 12345) & 0x7fffffff;
  return seed / 0x7fffffff;
};
function shuffle(a) {
  for (let i = a.length - 1; i > 0; i--) {
    const j = Math.floor(rnd() * (i + 1));
    [a[i], a[j]] = [a[j], a[i]];
  }
  return a;
}
const spots = shuffle(spread(occurrences(SPEC.find), SPEC.spots || 15));
if (spots.length < 2) {
  console.error(`edit spec: fewer than 2 occurrences of ${SPEC.find}`);
  process.exit(2);
}
let pre = 0;
while (pre < Math.min(SPEC.find.length, SPEC.replace.length) && SPEC.find[pre] === SPEC.replace[pre]) pre++;
let suf = 0;
while (
  suf < Math.min(SPEC.find.length, SPEC.replace.length) - pre &&
  SPEC.find.at(-1 - suf) === SPEC.replace.at(-1 - suf)
)
  suf++;
const oldMid = SPEC.find.slice(pre, SPEC.find.length - suf),
  newMid = SPEC.replace.slice(pre, SPEC.replace.length - suf);
const msgRe = SPEC.message ? new RegExp(SPEC.message) : null;
const strict = (SPEC.sentinel || 'strict') === 'strict';
const TOL = SPEC.lineTol || 0;
function placeList(p, dflt) {
  p = p || dflt;
  const at = p.at === 'end' ? p.find.length : (p.at ?? 1);
  const l = spread(occurrences(p.find), 15).map((o) => posAt(o + at));
  if (!l.length) console.error(`warning: no occurrence of ${JSON.stringify(p.find)}`);
  return shuffle(l);
}

// ---------- connection
// on-CPU and run-queue-wait time of the server's tree, ns resolution (schedstat), all threads: independent of debounces, and telling of noise
function sched() {
  let cpu = 0,
    wait = 0;
  for (const p of tree(child.pid))
    try {
      for (const t of fs.readdirSync(`/proc/${p}/task`)) {
        const f = fs.readFileSync(`/proc/${p}/task/${t}/schedstat`, 'utf8').split(' ');
        cpu += Number(f[0]) / 1e6;
        wait += Number(f[1]) / 1e6;
      }
    } catch {}
  return { cpu, wait };
}
// CPU used on the whole machine, so that the share taken by OTHER processes during the run can be told (Linux only)
function cpuAll() {
  try {
    const f = fs.readFileSync('/proc/stat', 'utf8').split('\n')[0].trim().split(/\s+/).slice(1, 9).map(Number);
    return {
      busy: (f[0] + f[1] + f[2] + f[5] + f[6]) * 10,
      steal: f[7] * 10,
      total: f.reduce((a, b) => a + b, 0) * 10,
    };
  } catch {
    return null;
  }
}
const calib0 = calibrate();
const load0 = os.loadavg()[0];
const cpu0 = cpuAll(),
  own0 = process.cpuUsage();
const tSpawn = now();
const child = spawn(cmd[0], cmd.slice(1), { cwd: ROOT, stdio: ['pipe', 'pipe', 'pipe'], env: process.env });
let stderrTail = '';
child.stderr.on('data', (d) => {
  stderrTail = (stderrTail + d).slice(-4000);
});
let exited = null;
child.on('exit', (c, s) => {
  exited = { c, s };
  for (const [, p] of pending) p.rej(new Error(`server exited ${c} ${s}`));
  wake();
});
child.on('error', (e) => {
  console.error('spawn failed', e);
  process.exit(3);
});
child.stdin.on('error', () => {});
let chunks = [],
  have = 0,
  need = -1;
const inStats = { bytes: 0, messages: 0 };
child.stdout.on('data', (d) => {
  const t = now();
  inStats.bytes += d.length;
  chunks.push(d);
  have += d.length;
  for (;;) {
    if (need < 0) {
      const b = chunks.length === 1 ? chunks[0] : Buffer.concat(chunks);
      chunks = [b];
      const h = b.indexOf('\r\n\r\n');
      if (h < 0) return;
      const m = /Content-Length: *(\d+)/i.exec(b.toString('latin1', 0, h));
      if (!m) {
        chunks = [b.subarray(h + 4)];
        have = chunks[0].length;
        continue;
      }
      need = Number(m[1]);
      chunks = [b.subarray(h + 4)];
      have = chunks[0].length;
    }
    if (have < need) return;
    const b = chunks.length === 1 ? chunks[0] : Buffer.concat(chunks);
    const body = b.toString('utf8', 0, need);
    chunks = [b.subarray(need)];
    have = chunks[0].length;
    need = -1;
    inStats.messages++;
    let msg;
    try {
      msg = JSON.parse(body);
    } catch (_e) {
      console.error('bad JSON from server', body.slice(0, 200));
      continue;
    }
    if (opt.trace) console.error('<-', body.slice(0, 400));
    onMessage(msg, t);
  }
});
function send(msg) {
  const s = JSON.stringify({ jsonrpc: '2.0', ...msg });
  if (opt.trace) console.error('->', s.slice(0, 300));
  child.stdin.write(`Content-Length: ${Buffer.byteLength(s)}\r\n\r\n${s}`);
}
let nextId = 1;
const pending = new Map();
function request(method, params, timeout = TIMEOUT) {
  const id = nextId++;
  const t0 = now();
  return new Promise((res, rej) => {
    const to = setTimeout(() => {
      pending.delete(id);
      rej(new Error(`timeout ${method}`));
    }, timeout);
    pending.set(id, {
      res: (result, t) => {
        clearTimeout(to);
        res({ result, ms: t - t0, t });
      },
      rej: (e) => {
        clearTimeout(to);
        rej(e);
      },
    });
    send({ id, method, params });
  });
}
const notify = (method, params) => send({ method, params });
const waiters = new Set();
function wake() {
  for (const w of [...waiters]) w();
}
const published = []; // {t, version, diagnostics}
const dyn = new Set();
const serverRequests = {};
const other = {};
function conf(section) {
  if (!section) return SETTINGS;
  let v = SETTINGS;
  for (const p of section.split('.')) v = v?.[p];
  return v === undefined ? null : v;
}
function onMessage(m, t) {
  if (m.method && m.id !== undefined) {
    serverRequests[m.method] = (serverRequests[m.method] || 0) + 1;
    let result = null;
    if (m.method === 'workspace/configuration') result = (m.params.items || []).map((i) => conf(i.section));
    else if (m.method === 'client/registerCapability')
      for (const r of m.params.registrations || []) {
        dyn.add(r.method);
        dynOptions[r.method] = r.registerOptions;
      }
    else if (m.method === 'workspace/workspaceFolders') result = [{ uri: pathToFileURL(ROOT).href, name: 'root' }];
    else if (m.method === 'workspace/applyEdit') result = { applied: false };
    send({ id: m.id, result });
  } else if (m.method) {
    if (m.method === 'textDocument/publishDiagnostics') {
      if (sameUri(m.params.uri)) {
        published.push({ t, version: m.params.version, diagnostics: m.params.diagnostics });
        wake();
      }
    } else other[m.method] = (other[m.method] || 0) + 1;
  } else if (m.id !== undefined) {
    const p = pending.get(m.id);
    if (!p) return;
    pending.delete(m.id);
    if (m.error) {
      const e = new Error(m.error.message);
      e.code = m.error.code;
      p.rej(e);
    } else p.res(m.result, t);
  }
}
const dynOptions = {};
const sameUri = (u) => u === URI || decodeURIComponent(u) === decodeURIComponent(URI);
// waits until test(entry) holds for a published entry with index >= from
function waitPublish(from, test, timeout = TIMEOUT) {
  return new Promise((res, rej) => {
    let i = from;
    let skipped = 0;
    const look = () => {
      if (exited) {
        done();
        rej(new Error(`server exited ${JSON.stringify(exited)}`));
        return;
      }
      for (; i < published.length; i++) {
        if (test(published[i])) {
          done();
          res({ entry: published[i], index: i, skipped });
          return;
        }
        skipped++;
      }
    };
    const to = setTimeout(() => {
      done();
      const e = new Error('timeout waiting for diagnostics');
      e.skipped = skipped;
      rej(e);
    }, timeout);
    const done = () => {
      clearTimeout(to);
      waiters.delete(look);
    };
    waiters.add(look);
    look();
  });
}

// ---------- memory of the process tree (ours only: the child and its descendants)
function tree(pid, out = []) {
  out.push(pid);
  try {
    for (const t of fs.readdirSync(`/proc/${pid}/task`))
      for (const c of fs.readFileSync(`/proc/${pid}/task/${t}/children`, 'utf8').split(' ').filter(Boolean))
        tree(Number(c), out);
  } catch {}
  return out;
}
function mem() {
  let rss = 0,
    hwm = 0,
    n = 0,
    cpu = 0;
  for (const p of tree(child.pid))
    try {
      const s = fs.readFileSync(`/proc/${p}/status`, 'utf8');
      rss += Number(/VmRSS:\s+(\d+)/.exec(s)?.[1] || 0);
      hwm += Number(/VmHWM:\s+(\d+)/.exec(s)?.[1] || 0);
      n++;
      const st = fs.readFileSync(`/proc/${p}/stat`, 'utf8');
      const f = st.slice(st.lastIndexOf(')') + 2).split(' ');
      cpu += (Number(f[11]) + Number(f[12])) * 10;
    } catch {}
  return { rss: rss / 1024, hwm: hwm / 1024, n, cpu };
}
let rssPeak = 0,
  procPeak = 0;
const sampler = setInterval(() => {
  const m = mem();
  if (m.rss > rssPeak) rssPeak = m.rss;
  if (m.n > procPeak) procPeak = m.n;
}, 250);
sampler.unref();

// ---------- diagnostics: what counts as an answer to an edit
const key = (d) => `${d.range.start.line}|${typeof d.message === 'string' ? d.message : d.message?.value}`;
function counts(ds) {
  const m = new Map();
  for (const d of ds) m.set(key(d), (m.get(key(d)) || 0) + 1);
  return m;
}
let D0 = [],
  C0 = counts([]);
const extras = (ds) => {
  const c = new Map(C0);
  const ex = [];
  for (const d of ds) {
    const k = key(d),
      v = c.get(k) || 0;
    if (v > 0) c.set(k, v - 1);
    else ex.push(d);
  }
  let missing = 0;
  for (const v of c.values()) missing += v;
  return { ex, missing };
};
const onLine = (d, line) =>
  d.range.start.line <= line + TOL && d.range.end.line >= line - TOL && (!msgRe || msgRe.test(d.message));
function reflects(ds, bad, line) {
  const { ex, missing } = extras(ds);
  const hit = ex.some((d) => onLine(d, line));
  if (bad) return hit && (!strict || missing === 0);
  return strict ? ex.length === 0 && missing === 0 : !hit;
}

// ---------- documents
let version = 1;
let text = clean;
let syncKind = 1;
let diagMode;
let diagId;
let lastPull = null;
let _fullSyncs = 0;
function change(off, delLen, ins) {
  // on the current text
  const before = text;
  text = before.slice(0, off) + ins + before.slice(off + delLen);
  version++;
  let contentChanges;
  if (syncKind === 2) {
    const a = posAt(off);
    contentChanges = [
      { range: { start: a, end: { line: a.line, character: a.character + delLen } }, rangeLength: delLen, text: ins },
    ];
  } else {
    contentChanges = [{ text }];
    _fullSyncs++;
  }
  const msg = { textDocument: { uri: URI, version }, contentChanges };
  const t0 = now();
  notify('textDocument/didChange', msg);
  return t0;
}
async function pull() {
  for (let tries = 0; ; tries++) {
    try {
      const r = await request('textDocument/diagnostic', {
        textDocument: { uri: URI },
        identifier: diagId,
        previousResultId: lastPull?.resultId,
      });
      if (r.result?.kind === 'unchanged') return { ds: lastPull.items, t: r.t };
      lastPull = r.result || { items: [] };
      return { ds: lastPull.items || [], t: r.t };
    } catch (e) {
      if (tries > 50 || ![-32802, -32801, -32800].includes(e.code)) throw e;
    }
  }
}
// one edit -> ms until diagnostics that reflect it
const tally = { notReflecting: 0, wrongVersion: 0, versioned: 0, answers: 0, polls: 0 };
async function answer(t0, from, bad, line) {
  if (diagMode === 'push') {
    const v = version;
    const r = await waitPublish(from, (e) => {
      if (e.version !== undefined && e.version !== null && e.version !== v) {
        tally.wrongVersion++;
        return false;
      }
      const ok = reflects(e.diagnostics, bad, line);
      if (!ok) tally.notReflecting++;
      return ok;
    });
    tally.answers++;
    if (typeof r.entry.version === 'number') tally.versioned++;
    return r.entry.t - t0;
  }
  for (;;) {
    const r = await pull();
    tally.polls++;
    if (reflects(r.ds, bad, line)) {
      tally.answers++;
      return r.t - t0;
    }
    tally.notReflecting++;
    if (r.t - t0 > TIMEOUT) throw new Error('timeout: pulled diagnostics never reflected the edit');
    await sleep(3);
  }
}
async function toggle(off, bad) {
  const from = published.length;
  const line = posAt(off).line;
  const t0 = bad ? change(off + pre, oldMid.length, newMid) : change(off + pre, newMid.length, oldMid);
  return { t0, from, line };
}

// ---------- run
const out = {
  name: opt.name || path.basename(cmd[0]),
  command: cmd.join(' '),
  file: FILE,
  lines: LINES,
  bytes: Buffer.byteLength(clean),
  date: new Date().toISOString(),
  node: process.version,
};
const errors = [];
const has = (cap, method) => Boolean(caps[cap]) || dyn.has(method);
let caps = {};
async function main() {
  const initR = await request('initialize', {
    processId: process.pid,
    clientInfo: { name: 'lspbench', version: '1' },
    rootUri: pathToFileURL(ROOT).href,
    rootPath: ROOT,
    workspaceFolders: [{ uri: pathToFileURL(ROOT).href, name: 'root' }],
    initializationOptions: INIT,
    trace: 'off',
    capabilities: {
      general: { positionEncodings: ['utf-16'] },
      workspace: {
        configuration: true,
        workspaceFolders: true,
        didChangeConfiguration: { dynamicRegistration: true },
        didChangeWatchedFiles: { dynamicRegistration: true },
        applyEdit: true,
        symbol: {},
        ...(wantDiag === 'push' ? {} : { diagnostics: { refreshSupport: true } }),
      },
      window: { workDoneProgress: true, showMessage: {} },
      textDocument: {
        synchronization: { dynamicRegistration: false, didSave: true },
        publishDiagnostics: {
          relatedInformation: true,
          versionSupport: true,
          tagSupport: { valueSet: [1, 2] },
          codeDescriptionSupport: true,
          dataSupport: true,
        },
        ...(wantDiag === 'push' ? {} : { diagnostic: { dynamicRegistration: true, relatedDocumentSupport: false } }),
        hover: { contentFormat: ['markdown', 'plaintext'] },
        completion: {
          dynamicRegistration: true,
          contextSupport: true,
          completionItem: {
            snippetSupport: true,
            documentationFormat: ['markdown', 'plaintext'],
            resolveSupport: { properties: ['documentation', 'detail', 'additionalTextEdits'] },
          },
        },
        documentSymbol: { hierarchicalDocumentSymbolSupport: true, dynamicRegistration: true },
        formatting: { dynamicRegistration: true },
        rangeFormatting: { dynamicRegistration: true },
        foldingRange: { rangeLimit: 100000, lineFoldingOnly: true, dynamicRegistration: true },
        definition: {},
        references: {},
        documentHighlight: {},
        rename: { prepareSupport: true },
        codeAction: { codeActionLiteralSupport: { codeActionKind: { valueSet: ['quickfix'] } } },
        signatureHelp: {},
        semanticTokens: {
          requests: { full: { delta: true }, range: true },
          tokenTypes: [
            'namespace',
            'type',
            'class',
            'enum',
            'interface',
            'struct',
            'typeParameter',
            'parameter',
            'variable',
            'property',
            'enumMember',
            'event',
            'function',
            'method',
            'macro',
            'keyword',
            'modifier',
            'comment',
            'string',
            'number',
            'regexp',
            'operator',
          ],
          tokenModifiers: ['declaration', 'definition', 'readonly', 'static', 'deprecated'],
          formats: ['relative'],
          dynamicRegistration: true,
        },
      },
    },
  });
  const tInit = initR.t;
  caps = initR.result.capabilities;
  out.server = initR.result.serverInfo;
  const sync = caps.textDocumentSync;
  syncKind = typeof sync === 'object' && sync ? (sync.change ?? 0) : (sync ?? 1);
  out.sync = ['none', 'full', 'incremental'][syncKind];
  notify('initialized', {});
  if (opt.settings) notify('workspace/didChangeConfiguration', { settings: SETTINGS });
  const tOpen = now();
  notify('textDocument/didOpen', { textDocument: { uri: URI, languageId: LANG, version, text } });
  // first diagnostics
  await sleep(0);
  let firstT;
  const openFrom = 0;
  const pullAble = () => Boolean(caps.diagnosticProvider) || dyn.has('textDocument/diagnostic');
  if (wantDiag === 'push') diagMode = 'push';
  else {
    if (wantDiag === 'pull' || caps.diagnosticProvider) diagMode = 'pull';
    else {
      const end = now() + 400;
      while (!pullAble() && !published.length && now() < end) await sleep(5);
      diagMode = pullAble() && !published.length ? 'pull' : 'push';
    }
  }
  diagId = (caps.diagnosticProvider || dynOptions['textDocument/diagnostic'])?.identifier;
  const seen = [];
  if (diagMode === 'push') {
    await waitPublish(openFrom, () => true);
    for (const lim = now() + TIMEOUT; ; ) {
      const n = published.length;
      await sleep(SETTLE);
      if (published.length === n && (published.at(-1).diagnostics.length >= MINCLEAN || now() > lim)) break;
    }
    D0 = published.at(-1).diagnostics;
    C0 = counts(D0);
    const f = published.find((e) => reflects0(e.diagnostics));
    firstT = f.t;
    out.firstAnyDiagMs = r2(published[0].t - tSpawn);
  } else {
    const lim = now() + TIMEOUT;
    const end = now() + SETTLE + 500;
    while (now() < end || ((seen.at(-1)?.ds.length ?? 0) < MINCLEAN && now() < lim)) {
      const r = await pull();
      seen.push(r);
      await sleep(seen.length < 40 ? 20 : 200);
    }
    D0 = seen.at(-1).ds;
    C0 = counts(D0);
    firstT = seen.find((e) => reflects0(e.ds)).t;
    out.firstAnyDiagMs = r2(seen[0].t - tSpawn);
  }
  function reflects0(ds) {
    const x = extras(ds);
    return x.ex.length === 0 && x.missing === 0;
  }
  out.diagMode = diagMode;
  out.spawnToInitializeMs = r2(tInit - tSpawn);
  out.spawnToFirstDiagMs = r2(firstT - tSpawn);
  out.openToFirstDiagMs = r2(firstT - tOpen);
  out.cleanDiagnostics = D0.length;
  out.sentinelOk = D0.length > 0;
  const memOpen = mem();
  out.rssAfterOpenMB = r2(memOpen.rss);
  // edits
  const times = [],
    cold = [];
  let misses = 0;
  const breaks = [],
    restores = [];
  const tPhase = now();
  let sch0 = sched();
  for (let i = 0; i < N + WARM; i++) {
    if (i === WARM) sch0 = sched();
    if (i % 2 === 0 && i >= WARM + MINED && now() - tPhase > BUDGET) break;
    const bad = i % 2 === 0;
    const off = spots[(i >> 1) % spots.length];
    const { t0, from, line } = await toggle(off, bad);
    try {
      const ms = await answer(t0, from, bad, line);
      if (i < WARM) cold.push(r2(ms));
      else {
        times.push(ms);
        (bad ? breaks : restores).push(ms);
      }
    } catch (e) {
      misses++;
      errors.push(
        `edit ${i} ${bad ? 'break' : 'restore'} line ${line + 1}: ${e.message}; last ${published.length} ${JSON.stringify((published.at(-1)?.diagnostics || lastPull?.items || []).slice(0, 3).map(key))}`,
      );
      if (exited) throw e;
      if (misses > 3) throw new Error(`too many misses: ${errors.join(' || ')}`);
    }
    await sleep(GAP);
  }
  const sch1 = sched();
  const per = Math.max(1, times.length);
  out.edit = {
    ...stats(times),
    cpuPerEditMs: r2((sch1.cpu - sch0.cpu) / per),
    queueWaitPerEditMs: r2((sch1.wait - sch0.wait) / per),
    misses,
    cold,
    breakP50: stats(breaks).p50,
    restoreP50: stats(restores).p50,
    ...tally,
    stopped: times.length < N ? 'budget' : undefined,
  };
  out.edit.verified = tally.answers === times.length + cold.length && misses === 0;
  // breaks to texts that never were before: what is kept from earlier edits is of no use
  if (SPEC.fresh) {
    const times = [];
    const places = shuffle(spread(occurrences(SPEC.fresh.find), SPEC.spots || 15));
    for (let i = 0; i < Math.max(4, N / 2); i++) {
      const off = places[i % places.length];
      const put = SPEC.fresh.replace.replace('#', String(101 + i));
      const { line } = posAt(off);
      let from = published.length;
      times.push(await answer(change(off, SPEC.fresh.find.length, put), from, true, line));
      await sleep(GAP);
      from = published.length;
      await answer(change(off, put.length, SPEC.fresh.find), from, false, line);
      await sleep(GAP);
    }
    out.fresh = stats(times);
  }
  // requests on the clean document
  const td = { uri: URI };
  async function many(name, n, f, okf) {
    const a = [];
    let ok = 0,
      err = 0;
    let size = null;
    for (let i = 0; i < n; i++) {
      try {
        const r = await f(i);
        a.push(r.ms);
        if (okf(r.result)) ok++;
        size = sizeOf(r.result);
      } catch (e) {
        err++;
        if (err === 1) errors.push(`${name}: ${e.message}`);
        if (err > 2) break;
      }
      await sleep(15);
    }
    return { ...stats(a), nonEmpty: ok, errors: err || undefined, lastSize: size };
  }
  const sizeOf = (r) =>
    r === null || r === undefined
      ? null
      : Array.isArray(r)
        ? r.length
        : r.items
          ? r.items.length
          : r.data
            ? r.data.length
            : 1;
  const some = (r) => Boolean(sizeOf(r));
  if (!SKIP.has('hover') && has('hoverProvider', 'textDocument/hover')) {
    const P = placeList(SPEC.hover, { find: SPEC.find, at: 1 });
    out.hover = await many(
      'hover',
      REQ,
      (i) => request('textDocument/hover', { textDocument: td, position: P[i % P.length] }),
      some,
    );
  }
  const CP = placeList(SPEC.completion, { find: SPEC.find, at: 'end' });
  if (!SKIP.has('completion') && has('completionProvider', 'textDocument/completion'))
    out.completion = await many(
      'completion',
      REQ,
      (i) =>
        request('textDocument/completion', {
          textDocument: td,
          position: CP[i % CP.length],
          context: { triggerKind: 1 },
        }),
      some,
    );
  if (!SKIP.has('completionAfterEdit') && out.completion)
    out.completionAfterEdit = await many(
      'completionAfterEdit',
      Math.min(REQ, num('after', 15)),
      async (i) => {
        const off = spots[i % spots.length];
        const a = await toggle(off, true);
        const r = await request('textDocument/completion', {
          textDocument: td,
          position: CP[i % CP.length],
          context: { triggerKind: 1 },
        });
        r.ms = r.t - a.t0;
        await answer(a.t0, a.from, true, a.line);
        const b = await toggle(off, false);
        await answer(b.t0, b.from, false, b.line);
        return r;
      },
      some,
    );
  if (!SKIP.has('documentSymbol') && has('documentSymbolProvider', 'textDocument/documentSymbol'))
    out.documentSymbol = await many(
      'documentSymbol',
      num('reps', 10),
      () => request('textDocument/documentSymbol', { textDocument: td }),
      some,
    );
  if (!SKIP.has('semanticTokens') && (caps.semanticTokensProvider?.full || dyn.has('textDocument/semanticTokens')))
    out.semanticTokens = await many(
      'semanticTokens',
      num('reps', 10),
      () => request('textDocument/semanticTokens/full', { textDocument: td }),
      some,
    );
  if (!SKIP.has('formatting') && has('documentFormattingProvider', 'textDocument/formatting'))
    out.formatting = await many(
      'formatting',
      Math.min(5, num('reps', 5)),
      () => request('textDocument/formatting', { textDocument: td, options: { tabSize: 2, insertSpaces: true } }),
      some,
    );
  // burst: 8 edits 30 ms apart toggle one spot, the 9th breaks it; time from the 9th to diagnostics that reflect it
  if (!SKIP.has('burst') && BURST > 0) {
    const a = [];
    for (let b = 0; b < BURST; b++) {
      const off = spots[b % spots.length];
      const line = posAt(off).line;
      try {
        for (let k = 0; k < 4; k++) {
          change(off + pre, oldMid.length, newMid);
          await sleep(30);
          change(off + pre, newMid.length, oldMid);
          await sleep(30);
        }
        const from = published.length;
        const t0 = change(off + pre, oldMid.length, newMid);
        a.push(await answer(t0, from, true, line));
        await sleep(GAP);
        const z = await toggle(off, false);
        await answer(z.t0, z.from, false, z.line);
        await sleep(GAP);
      } catch (e) {
        errors.push(`burst: ${e.message}`);
        break;
      }
    }
    out.burst = stats(a);
  }
  const m = mem();
  if (m.rss > rssPeak) rssPeak = m.rss;
  out.rssPeakMB = r2(Math.max(rssPeak, 0));
  out.hwmSumMB = r2(m.hwm);
  out.processes = Math.max(procPeak, m.n);
  out.serverCpuMs = m.cpu;
  {
    const c = cpuAll(),
      o = process.cpuUsage(own0);
    if (c && cpu0) {
      const mine = m.cpu + (o.user + o.system) / 1000;
      out.othersCpuPercent = r2(Math.max(0, (100 * (c.busy - cpu0.busy - mine)) / (c.total - cpu0.total)));
      out.stealPercent = r2((100 * (c.steal - cpu0.steal)) / (c.total - cpu0.total));
    }
  }
  out.inMessages = inStats.messages;
  out.serverRequests = serverRequests;
}
let fatal = null;
try {
  await main();
} catch (e) {
  fatal = e.message;
}
clearInterval(sampler);
out.noise = { before: calib0, loadBefore: r2(load0), after: calibrate(), loadAfter: r2(os.loadavg()[0]) };
if (fatal) {
  out.fatal = fatal;
  out.stderrTail = stderrTail.slice(-1500);
}
if (errors.length) out.errors = errors.slice(0, 6);
// end only what we started: ask first, then by pid
const mine = exited ? [] : tree(child.pid);
if (!exited) {
  try {
    await request('shutdown', undefined, 3000);
  } catch {}
  notify('exit');
  for (let i = 0; i < 40 && !exited; i++) await sleep(25);
}
for (const p of mine)
  if (p !== child.pid || !exited)
    try {
      const c = fs.readFileSync(`/proc/${p}/stat`, 'utf8');
      const pp = Number(c.slice(c.lastIndexOf(')') + 2).split(' ')[1]);
      if (p === child.pid || pp === 1 || mine.includes(pp)) process.kill(p, 'SIGKILL');
    } catch {}
const js = JSON.stringify(out);
if (opt.json) fs.writeFileSync(opt.json, `${js}\n`);
else console.log(js);
if (!opt.quiet) {
  const e = out.edit || {};
  const f = (s) => (s?.n ? `${s.p50}/${s.p95}` : '-');
  console.error(
    `${out.name} ${LINES} lines: spawn->diag ${out.spawnToFirstDiagMs} ms | edit->diag(${out.diagMode || '?'},${out.sync}) p50 ${e.p50} p95 ${e.p95} max ${e.max} cpu/edit ${e.cpuPerEditMs} n ${e.n} verified ${e.verified} notRefl ${e.notReflecting} | burst ${f(out.burst)} | hover ${f(out.hover)} (${out.hover?.nonEmpty}/${out.hover?.n}) | compl ${f(out.completion)} (${out.completion?.lastSize}) after edit ${f(out.completionAfterEdit)} | sym ${f(out.documentSymbol)} | sem ${f(out.semanticTokens)} | fmt ${f(out.formatting)} (${out.formatting?.lastSize}) | RSS ${out.rssPeakMB} MB x${out.processes} | D0 ${out.cleanDiagnostics} | others' CPU ${out.othersCpuPercent}%` +
      (out.fatal ? ` | FATAL ${out.fatal}` : '') +
      (out.errors ? ` | errors ${out.errors.length}: ${out.errors[0]}` : ''),
  );
}
process.exit(fatal ? 1 : 0);
