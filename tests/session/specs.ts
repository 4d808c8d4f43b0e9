/** Small specs for tests of the session. */

/** One lamp on a battery: `size` decides whether its cables are big enough for the fuse. */
export const lamp = (size = '4 mm²') => `system "Lamp" 12 V
battery B1  lead-acid, 12 V, 80 Ah, internal 15 mΩ
fuse F1  20 A, blade, 32 V
load LAMP  24 W

run W1  4 mm² red, 0.1 m, B1:+ to F1:in
run W2  ${size} red, 1.2 m, F1:out to LAMP:+
run W3  4 mm² black, 1.4 m, LAMP:- to B1:-
`;

/** The same lamp on cable from a stock file. */
export const lampFromStock = `use "stock.amps"
system "Lamp" 12 V
battery B1  lead-acid, 12 V, 80 Ah, internal 15 mΩ
fuse F1  20 A, blade, 32 V
load LAMP  24 W

run W1  = thin red, 0.1 m, B1:+ to F1:in
run W2  = thin red, 1.2 m, F1:out to LAMP:+
run W3  = thin black, 1.4 m, LAMP:- to B1:-
`;

export const stock = (size: string) => `stock thin  cable ${size}, class 5, 70 °C\n`;

/** A piece of a spec, and the lamp that it feeds. */
export const piece = `battery B1  lead-acid, 12 V, 80 Ah, internal 15 mΩ
fuse F1  20 A, blade, 32 V
run W1  4 mm² red, 0.1 m, B1:+ to F1:in
`;
export const lampFromPiece = `use "parts.amps"
system "Lamp" 12 V
load LAMP  24 W

run W2  4 mm² red, 1.2 m, F1:out to LAMP:+
run W3  4 mm² black, 1.4 m, LAMP:- to B1:-
`;
