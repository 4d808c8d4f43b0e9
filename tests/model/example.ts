/** The whole example of the reference, with what it leaves out made up. */
export const spokewagon = `# A travelling bicycle workshop: two days away from the mains.
system "Spokewagon" 12 V
    ambient 35 °C, coldest -12 °C, hottest 70 °C
    limits iec-60364-5-52

place ROOF      outdoors, 70 °C
place GARAGE    indoors, 40 °C

stock roof-cable cable 6 mm², class 5, tinned, 120 °C, od 6.3 mm, outdoors

panel P1 and P2  120 W, voc 23.0 V, isc 6.9 A, vmp 19.2 V, imp 6.3 A
    voc drift -0.30 %/°C, at ROOF

enclosure ROOF-BOX  plastic, IP65, outdoors, knockouts 4 x M20, blanks 0
isolator Q1 "Roof isolator"  4 poles, 25 A dc, 150 V, category DC-PV2, in ROOF-BOX

controller U1  mppt, pv 100 V 30 A, output 20 A, common negative, at GARAGE
battery B1     lithium-iron-phosphate, 12.8 V, 150 Ah, discharge 150 A, charge 75 A, internal 5 mΩ, frost cut-off, at GARAGE
fuse F1        80 A, cartridge, 125 V, breaks 20 kA
isolator Q2    1 pole, 100 A dc, 60 V
busbar POS     150 A
busbar NEG     150 A
fuse F2        ? A, blade, 32 V, breaks 1 kA
load LAMPS     36 W, 4 h/day, lowest 11.0 V

run W1  = roof-cable red, 4.2 m, P1:+ to Q1:1
    enters ROOF-BOX by gland M20
run W2  = roof-cable black, 4.2 m, P1:- to Q1:3
    enters ROOF-BOX by gland M20
run W3  = roof-cable red, 2.2 m, P2:+ to Q1:5
    enters ROOF-BOX by gland M20
run W4  = roof-cable black, 2.2 m, P2:- to Q1:7
    enters ROOF-BOX by gland M20
splice PV-POS
splice PV-NEG
run W5  = roof-cable red, 0.3 m, Q1:2 to PV-POS
    enters ROOF-BOX by gland M20
run W6  = roof-cable black, 0.3 m, Q1:4 to PV-NEG
    enters ROOF-BOX by gland M20
run W7  = roof-cable red, 0.3 m, Q1:6 to PV-POS
    enters ROOF-BOX by gland M20
run W8  = roof-cable black, 0.3 m, Q1:8 to PV-NEG
    enters ROOF-BOX by gland M20
run W9  = roof-cable red, 3.1 m, along GARAGE, PV-POS to U1:pv+
run W10 = roof-cable black, 3.1 m, along GARAGE, PV-NEG to U1:pv-
run W11 25 mm² red, 0.2 m, B1:+ to F1:in
run W12 25 mm² red, 0.3 m, F1:out to Q2:1
run W13 25 mm² red, 0.3 m, Q2:2 to POS
run W14 25 mm² black, 0.4 m, B1:- to NEG
run W15 6 mm² red, 0.8 m, U1:bat+ to POS
run W16 6 mm² black, 0.8 m, U1:bat- to NEG
run W17 2.5 mm² red, 0.2 m, POS to F2:in
run W20  2 x ? mm², 5.5 m, along GARAGE
    red    F2:out to LAMPS:+
    black  NEG to LAMPS:-

case night   sun 0 %, charge 50 %, all loads on
expect LAMPS voltage at least 11.5 V in night
`;
