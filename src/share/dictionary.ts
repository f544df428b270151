/**
 * What the model of a packed text has read before the text begins: words of the trade and turns of phrase in the places
 * where they stand in a copy (`layout.ts`), so that neither need be learnt anew from every link; one line each of
 * French and Spanish. It is made up. What more words would save is in DEVELOPERS.md.
 *
 * It is part of the packed form 2 and never changes: another dictionary takes another number in `pack.ts`, and this one
 * stays for the links that are out.
 */
export const DICTIONARY_2 = `Il faut remplacer la pompe; le joint de roue avant gauche est usé, fuite sous le moteur
Hay que cambiar la bomba porque pierde; el disco de freno y la rueda delantera izquierda están gastados, junta del motor
2026-01-05T10:00:00Z
Auto Repair Garage
+1 555 0100
info@example.com
12 Main Street
America/New_York
Prices are valid for 30 days. Replaced parts are shown on request.
e-1
10

2026-01-05T09:30:00Z
van
1M
AB
6000

A. Name

Makes a noise when braking and the engine light is on.

2


pressure test with dye
inspection on the lift, road test

1
4




+
+
+
0
left front
right rear
lower
worn below the limit
worn unevenly
leaks at the joint
seeps oil
cracked at its seam
rusted through
seized
sticks open
bearing rumbles
torn, damaged
split, swollen and soft
blocked
slips
does not hold pressure
out of true
1
1
1
2
measured
by eye
by hand
by ear
scan tool
pressure drop
dye trace
1.6 mm, limit 2.0 mm
0.3 mm
100 kPa to 80 kPa in 10 min
12.4 V at idle
90 °C
3 of 8

1

2
3
The brake pads at the left front wheel are worn and the metal will soon touch the disc.
It should be replaced now, because the engine can overheat and may fail without warning.
There is a small leak from the seal which gets worse when it is hot.
The rubber of this hose is hard, has cracks where it bends and lets fluid out.
Not urgent yet; we will look at it again at the next service.
You can hear a noise when you turn the wheel or drive over bumps.
It was tested under pressure and does not work as it should.
oooo










+
+
+
+



left front
right rear
+
+
+
+











3
Brake pads
Wheel bearing
Steering joint
Coolant
4
Exhaust gasket
Gear oil, 1 litre
Seal set
Oil filter
Clip
Bolt
Drive belt
Brake disc
Hose, moulded
Sensor
Water pump gasket
EX-2203-01
CK-0115-02
214.5
1.2








2
Wheel off and on
Raise the vehicle and support it
Drain, refill and bleed the cooling system
0.6
0.2


1

+:2

3
Replace a brake hose
Replace the water pump
Replace the thermostat housing
Replace the battery
Renew the gearbox oil
+
0
0



1.4



+
0
+



1,+:4

+:2
+
0
0
shop

USD
en-US


1
General repair
Diagnosis
140.00
1
Shop supplies
5
l
0
40.00
+
1
Oil disposal
5.00

-
2
State sales tax
Local sales tax
2
pcu
pcu





1
10
25
`;
