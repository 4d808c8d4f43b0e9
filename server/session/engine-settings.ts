/**
 * What the JavaScript engine of a server's own process is told, before all else is loaded. The process is there all day beside
 * the editor, and mostly it waits: it should take little memory, and little of the machine when it works.
 */
import { setFlagsFromString } from 'node:v8';

// V8 lets garbage grow to several times what is alive. The young generation stays as small as it begins, and the old one grows
// by little over half before it is cleared: half the memory, for a few percent of an edit's time.
setFlagsFromString('--semi-space-growth-factor=1');
setFlagsFromString('--heap-growing-percent=60');

// An edit runs a little of everything: functions put into each other far down take V8 long to compile, and are no quicker.
setFlagsFromString('--max-inlined-bytecode-size=150');
setFlagsFromString('--max-inlined-bytecode-size-cumulative=400');
