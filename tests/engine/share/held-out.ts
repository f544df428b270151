/**
 * Estimates to measure links with, kept apart: they were written before the dictionary of the packed form, in other
 * words than the demonstration's, and nothing in the dictionary was chosen after looking at them. All invented.
 */
import type { Urgency } from '../../../src/documents/estimate.js';
import { parseCatalogue, parseEstimate } from '../../../src/index.js';
import type { Documents } from '../../../src/pricing/documents.js';
import type { Shop } from '../../../src/share/shop.js';
import { demoDocuments } from './documents.js';

type Shared = Documents & { readonly shop: Shop };

/** `operation | component | position | fault | how | reading | urgency | sentence`, one finding and its line each. */
interface Row {
  readonly operation: string;
  readonly component: string;
  readonly position: string;
  readonly fault: string;
  readonly how: string;
  readonly reading: string;
  readonly urgency: Urgency;
  readonly text: string;
}

function rows(table: string): Row[] {
  return table
    .trim()
    .split('\n')
    .map((line) => {
      const [operation, component, position, fault, how, reading, urgency, text] = line.split('|').map((cell) => cell.trim());
      return {
        operation: operation!,
        component: component!,
        position: position!,
        fault: fault!,
        how: how!,
        reading: reading!,
        urgency: urgency as Urgency,
        text: text!,
      };
    });
}

function value<T>(parsed: { ok: true; value: T } | { ok: false; problems: unknown }): T {
  if (!parsed.ok) throw new Error(JSON.stringify(parsed.problems));
  return parsed.value;
}

function estimateOf(table: string, head: object): Documents['estimate'] {
  const found = rows(table);
  return value(
    parseEstimate({
      format: 'baysheet-estimate',
      version: 1,
      ...head,
      rounds: [],
      findings: found.map(({ component, position, fault, how, reading, urgency, text }, i) => ({
        id: `f${i + 1}`,
        round: 1,
        component,
        position,
        fault,
        urgency,
        text,
        seen: [{ how, note: '', reading, photo: '' }],
      })),
      lines: found.map(({ operation, position }, i) => ({
        id: `l${i + 1}`,
        kind: 'operation',
        operation,
        positions: position === '' ? [] : [position],
        findings: [`f${i + 1}`],
        decision: 'proposed',
      })),
    }),
  );
}

const COOLING = `
cooling-pressure-test-dye | cooling-system  |       | drops a quart every two days       | visual check         | level 2 in below MIN | now    | We filled it up and put it under pressure to see where the antifreeze goes.
radiator-hose             | radiator-hose   | upper | bulges next to the clamp           | squeeze test, cold   | 44 mm where 38 is normal | now    | Upper hose has ballooned and may burst on the next long climb.
heater-hose-one           | heater-hose     | return | chafed by a bracket               | inspection mirror    | groove 1.2 mm deep   | soon   | A loose bracket has been rubbing on this line; about half of the rubber is left.
water-pump                | water-pump      |       | bearing noisy                      | stethoscope          | growl from 1500 rpm  | now    | You can hear the pump bearing growl. If it locks up it takes the belt with it.
thermostat                | thermostat      |       | never opens fully                  | infrared thermometer | 118 C in, 74 C out   | now    | Flow is blocked part way, which is why the gauge climbs in traffic.
expansion-tank            | expansion-tank  |       | hairline fracture below the neck   | UV lamp              | 3 in long            | now    | The plastic bottle is brittle with age and has begun to open up under the filler neck.
pressure-cap              | pressure-cap    |       | rubber perished                    | cap adapter          | releases at 9 psi of 16 | soon | An inexpensive item, but without it the whole system runs at too low a boiling point.
fan-module                | fan-module      |       | low speed dead                     | actuator command     | 0.0 A on stage one   | soon   | The electric fan only comes on at full blast, so it gets hot while you wait at lights.
coolant-sensor            | coolant-sensor  |       | reads 20 degrees low               | live data            | 61 C shown, 82 C true | watch | Gauge cannot be trusted at present. We recommend doing this while everything is drained anyway.
drive-belt                | drive-belt      |       | glazed and fraying                 | gauge tool           | wear past the mark   | soon   | Edge cords are coming loose. The same belt runs the steering and the generator.
belt-tensioner            | belt-tensioner  |       | arm shakes at idle                 | video on phone       | swings 8 mm          | watch  | Spring is tired; a fresh belt would not last on it.
cooling-retest            | cooling-system  |       | must be verified afterwards        | plan                 | 20 minutes at 15 psi | soon   | Once all of it is back together we repeat the check so you get it back dry.
`;

/** A cooling job out of the demonstration's catalogue, described by somebody else for another shop. */
export function heldOutCooling(): Shared {
  return {
    ...demoDocuments(),
    estimate: estimateOf(COOLING, {
      id: 'ro-77120-c',
      number: '77120',
      createdAt: '2026-07-21T08:17:00Z',
      vehicle: {
        label: '2017 Dunmarrow Pika 4x4, 2.4 L gasoline, silver',
        vin: '1M8GDM9AXKP042788',
        plate: '7KX 219',
        odometer: '118350',
        unit: 'mi',
      },
      customer: { name: 'T. Vandermolen' },
      concern: 'Runs hot on hills and smells like syrup after parking. Low coolant light every other day.',
    }),
    shop: {
      name: 'Fern Hollow Garage',
      phone: '+1 541 555 0187',
      email: 'service@fernhollow.example',
      address: '880 Old Mill Rd, Fern Hollow',
      timeZone: 'America/Los_Angeles',
      terms: 'Prices good through the end of the month. Ask us for your old parts back.',
    },
  };
}

const BRAKES = `
fr-rotors | rotor     | LF | 0.9 mm under discard                 | micrometer       | 26.1 mm (27.0 min)   | unsafe | Too thin to machine. Thin rotors overheat and can crack when you brake hard.
fr-rotors | rotor     | RF | scored and under discard             | micrometer       | 26.4 mm (27.0 min)   | unsafe | Same story on the passenger side, with a deep groove from a stone.
fr-pads   | pad       | LF | 2/32 left                            | pad gauge        | 2/32, new is 12/32   | unsafe | Almost metal on metal on the inside pad.
cal-front | caliper   | LF | slide pins rusted solid              | pry bar          | no movement          | now    | One side of the brake does no work because the pins are frozen in place.
hose-fr   | flex      | LF | ballooning under pressure            | assistant on pedal | swells about 1/8 in | now   | Part of your pedal effort goes into stretching this hose.
rear-drum | drum      | LR | oversize                             | drum gauge       | 10.11 in, max 10.09  | soon   | Past its legal limit. Shoes would not seat on it.
rear-shoe | shoe      | LR | lining separating                    | drum removed     | 1/16 in              | now    | Glue has let go at one end of the lining.
wheel-cyl | wcyl      | LR | wet under the dust boot              | boot peeled back | fluid present        | now    | Brake fluid has started to soak the new friction surface, so it has to be dry before shoes go on.
flush     | fluid     |    | dark, copper content high            | test strip       | 200 ppm, replace at 100 | soon | Old fluid holds water and eats the insides of the hydraulic unit.
tie-rod   | outer     | RF | looseness                            | dial indicator   | .060 in, spec .015   | unsafe | Steering could wander; a joint with this much slop may separate.
sway-link | link      | RF | stud broken                          | on the hoist     | two pieces           | soon   | This is the rattle you hear over speed bumps.
align     | geometry  |    | toe out of range                     | alignment rack   | 0.34 deg, max 0.10   | soon   | Needed after the steering joint. Keeps the new tires from feathering.
`;

/** A brake and steering job out of a catalogue of its own, with the words that are usual in another country. */
export function heldOutBrakes(): Shared {
  const part = (id: string, title: string, number: string, cost: string, core = '0') => ({
    id,
    title,
    number,
    cost,
    list: null,
    core,
    condition: core === '0' ? 'new' : 'reconditioned',
  });
  const operation = (id: string, title: string, per: string, bookHours: string, steps: string[], parts: [string, string][] = []) => ({
    id,
    title,
    system: 'chassis',
    labourClass: 'general',
    per,
    bookHours,
    steps,
    includes: [],
    parts: parts.map(([each, qty]) => ({ part: each, qty })),
    fees: [],
    cautions: [],
    basis: 'shop times 2025',
  });
  const catalogue = value(
    parseCatalogue({
      format: 'baysheet-catalogue',
      version: 1,
      id: 'own',
      title: 'Chassis work',
      note: '',
      cautions: [],
      remedies: [],
      overlaps: [],
      components: [
        ['rotor', 'Front rotor'],
        ['pad', 'Front disc pads'],
        ['caliper', 'Front caliper'],
        ['flex', 'Flex line'],
        ['drum', 'Rear drum'],
        ['shoe', 'Rear shoes'],
        ['wcyl', 'Wheel cylinder'],
        ['fluid', 'Hydraulic fluid'],
        ['outer', 'Outer tie rod'],
        ['link', 'Sway bar link'],
        ['geometry', 'Alignment'],
      ].map(([id, title]) => ({ id, title, positions: [] })),
      parts: [
        part('rot', 'Vented rotor, coated, 320 mm', 'QR-53028C', '61.15'),
        part('pads', 'Ceramic pad set w/ hardware', 'QD1414-CH', '38.72'),
        part('pinkit', 'Guide pin and boot kit', 'K9-14077', '9.38'),
        part('cal', 'Loaded caliper', '18-B5214', '84.40', '55.00'),
        part('hose', 'Hydraulic hose assembly', 'BH382710', '17.66'),
        part('washer', 'Copper crush washer', '00-10X15', '0.42'),
        part('drum', 'Brake drum 10 in', 'DR-8940', '47.95'),
        part('shoes', 'Bonded shoe set', 'S-1057', '26.10', '8.00'),
        part('spring', 'Drum hardware kit', 'H7338', '11.83'),
        part('wc', 'Wheel cylinder 13/16', 'W37846', '14.29'),
        part('dot4', 'DOT 4 fluid, quart', 'F-DOT4-1Q', '7.21'),
        part('tr', 'Outer tie rod end, greasable', 'ES-800984', '29.33'),
        part('sl', 'Stabilizer link, heavy duty', 'K-750616', '22.58'),
      ],
      steps: [
        { id: 'hoist', title: 'Set on two-post hoist', hours: '0.1', per: 'vehicle', needs: [], parts: [], cautions: [] },
        { id: 'tire', title: 'R&R tire, retorque lug nuts', hours: '0.2', per: 'position', needs: ['hoist'], parts: [], cautions: [] },
        { id: 'hang', title: 'Unbolt caliper and hang it', hours: '0.3', per: 'position', needs: ['tire'], parts: [], cautions: [] },
        { id: 'drumoff', title: 'Pull drum', hours: '0.2', per: 'position', needs: ['tire'], parts: [], cautions: [] },
        {
          id: 'bleed',
          title: 'Bleed one corner',
          hours: '0.3',
          per: 'position',
          needs: ['tire'],
          parts: [{ part: 'washer', qty: '2' }],
          cautions: [],
        },
      ],
      operations: [
        operation('fr-rotors', 'Front rotor R&R, each', 'position', '0.9', ['hang'], [['rot', '1']]),
        operation(
          'fr-pads',
          'Front pads, one axle end',
          'position',
          '0.8',
          ['hang'],
          [
            ['pads', '1'],
            ['pinkit', '1'],
          ],
        ),
        operation('cal-front', 'Front caliper R&R', 'position', '1.1', ['hang', 'bleed'], [['cal', '1']]),
        operation('hose-fr', 'Front brake hose R&R', 'position', '0.9', ['bleed'], [['hose', '1']]),
        operation('rear-drum', 'Rear drum R&R', 'position', '0.5', ['drumoff'], [['drum', '1']]),
        operation(
          'rear-shoe',
          'Rear shoes, overhaul one side',
          'position',
          '1.2',
          ['drumoff'],
          [
            ['shoes', '1'],
            ['spring', '1'],
          ],
        ),
        operation('wheel-cyl', 'Wheel cylinder R&R', 'position', '1.1', ['drumoff', 'bleed'], [['wc', '1']]),
        operation('flush', 'Brake fluid exchange', 'vehicle', '0.8', ['hoist'], [['dot4', '1.5']]),
        operation('tie-rod', 'Outer tie rod R&R', 'position', '0.7', ['tire'], [['tr', '1']]),
        operation('sway-link', 'Sway bar link R&R', 'position', '0.5', ['tire'], [['sl', '1']]),
        operation('align', 'Four wheel alignment', 'vehicle', '1.4', []),
      ],
    }),
  );
  return {
    ...demoDocuments(),
    catalogue,
    estimate: estimateOf(BRAKES, {
      id: 'e20260419-31',
      number: 'E-31',
      createdAt: '2026-04-19T15:44:00Z',
      vehicle: {
        label: '2014 Corvane Ridge 1500 crew cab 5.3',
        vin: '1G1YY25R695700001',
        plate: 'CDR 4417',
        odometer: '96204',
        unit: 'mi',
      },
      customer: { name: 'Priya Lockhart' },
      concern: 'Grinding up front, wheel shakes under braking, rattle over bumps.',
    }),
    shop: {
      name: 'North Dock Brake & Steering',
      phone: '207-555-0164',
      email: 'office@northdock.example',
      address: '4 Wharf St, Unit B',
      timeZone: 'America/New_York',
      terms: 'Estimate expires in 14 days. Cores are due back in a week.',
    },
  };
}

const SPANISH = `
cooling-pressure-test-dye | cooling-system  |          | pierde agua sin charco visible  | a simple vista     | faltan 1,5 l          | now    | Hay que encontrar por dónde se escapa antes de pedir nada.
radiator                  | radiator        |          | panal picado                    | manómetro          | cae 30 kPa en 5 min   | now    | El radiador tiene los tubos comidos por el óxido y gotea en cuanto coge temperatura.
radiator-hose             | radiator-hose   | inferior | agrietado junto a la abrazadera | con la mano        | goma dura             | soon   | El tubo de abajo está reseco; conviene cambiarlo ahora que el circuito está vacío.
water-pump                | water-pump      |          | holgura en el eje               | reloj comparador   | 0,4 mm                | now    | Si la bomba se agarra, el motor se queda sin refrigeración en pocos minutos.
thermostat                | thermostat      |          | se queda cerrado                | termómetro láser   | 109 °C antes, 52 °C después | now | No deja pasar el líquido y por eso sube la aguja.
pressure-cap              | pressure-cap    |          | muelle flojo                    | probador de tapones | abre a 60 kPa, marca 110 | soon | Con esta tapa el líquido hierve antes de tiempo.
expansion-tank            | expansion-tank  |          | fisura en la costura            | lámpara ultravioleta | 25 mm               | now    | El depósito suda por la costura y no se puede pegar.
fan-module                | fan-module      |          | no arranca                      | pinza amperimétrica | 0 A                  | now    | El ventilador no gira; en atasco el coche se calienta.
drive-belt                | drive-belt      |          | cuarteada                       | a simple vista     | 9 grietas por palmo   | soon   | La correa mueve también el alternador y la dirección.
belt-tensioner            | belt-tensioner  |          | ruido al ralentí                | de oído            | chirrido a 800 rpm    | watch  | Todavía aguanta, pero lo miraremos en la próxima revisión.
coolant-service           | coolant         |          | sucio y con poca concentración  | refractómetro      | -9 °C                 | soon   | Con tan poco anticongelante se puede helar este invierno.
cooling-retest            | cooling-system  |          | comprobación final              | manómetro          | 100 kPa, 15 min       | soon   | Antes de entregarlo repetimos la prueba para asegurar que no queda ninguna fuga.
`;

/** The words of a shop that writes Spanish; the catalogue's titles stay as they are. */
export function heldOutSpanish(): Shared {
  return {
    ...demoDocuments(),
    estimate: estimateOf(SPANISH, {
      id: 'p-2026-0388',
      number: '388',
      createdAt: '2026-10-02T07:31:00Z',
      vehicle: { label: 'Brisal Tordo 1.6 familiar (inventado)', vin: '', plate: '0000 BBB', odometer: '187420', unit: 'km' },
      customer: { name: 'Leonor Quiroga' },
      concern: 'Se calienta en ciudad y cada semana hay que echarle agua.',
    }),
    shop: {
      name: 'Talleres La Umbría',
      phone: '900 000 000',
      email: 'citas@laumbria.example',
      address: 'Calle del Molino, 7',
      timeZone: 'Europe/Madrid',
      terms: 'Presupuesto válido 30 días.',
    },
  };
}

const FORTY = `
plenum-gasket    | plenum          |             | hisses when revved              | smoke machine     | smoke at rear edge     | now    | Unmetered air sneaks in past the old gasket, which explains the rough idle.
injector-o-rings | injector-seals  |             | smell of gas                    | sniffer           | 140 ppm at rail        | unsafe | Fuel vapor around a hot engine is a fire hazard, so please do not drive far.
rail-sensor      | rail-sensor     |             | jumpy signal                    | lab scope         | dropouts every 3 s     | soon   | The computer loses track of fuel pressure for a moment and the engine stumbles.
throttle-body    | throttle-body   |             | worn track                      | sweep test        | dead spot at 12 %      | soon   | You may notice a flat spot as you pull away.
air-filter       | air-filter      |             | packed with leaves              | looked inside     | one third blocked      | watch  | Cheap to do and you will save a little at the pump.
breather-hose    | breather-hose   |             | collapsed                       | felt it           | flat for 2 in          | soon   | Crankcase pressure has nowhere to go, so it pushes oil out of the seals.
purge-valve      | purge-valve     |             | leaks through when shut         | hand vacuum pump  | lost 5 inHg per min    | watch  | Explains the check engine light and the hard start after filling up.
ignition-coil    | ignition-coil   | cylinder 3  | misfires under load             | swap test         | fault moved with it    | now    | We moved the coil to another cylinder and the misfire went along with it.
spark-plugs      | spark-plugs     |             | gap too wide                    | feeler gauge      | 1.6 mm, spec 1.1       | soon   | All four are at the end of their life and make the coils work too hard.
fuel-sender      | fuel-sender     |             | sticks at half                  | ohmmeter          | 92 ohm, no change      | watch  | Gauge shows half a tank whatever is in it; do not rely on it.
brake-pads       | brake-pads      | left rear   | glazed                          | ruler             | 4 mm                   | soon   | Shiny surface gives less bite. They have perhaps 5000 miles left.
brake-pads       | brake-pads      | right rear  | glazed                          | ruler             | 4 mm                   | soon   | Always renewed in pairs with the other side.
brake-caliper    | brake-caliper   | right rear  | handbrake lever hangs           | pulled by hand    | returns half way       | now    | The lever stays partly on and cooks the pads.
brake-hose       | brake-hose      | right rear  | twisted at last repair          | looked            | quarter turn           | soon   | Someone fitted it with a twist, and it is rubbing on the arm.
brake-fluid      | brake-fluid     |             | boils early                     | boiling tester    | 148 C, want 180        | now    | On a long downhill the pedal could go soft.
parking-cable    | parking-cable   |             | frayed strands                  | flashlight        | 5 of 19 broken         | unsafe | It might let go on a slope. Leave the car in gear until this has been done.
wheel-bearing    | wheel-bearing   | right front | hums at 40 mph                  | road test         | louder in left turns   | now    | That droning noise is not your tires, it is the bearing.
abs-sensor       | abs-sensor      | right front | wire chewed                     | continuity        | open                   | now    | Anti-lock and stability control are off until the wire is whole.
strut            | strut           | left front  | no resistance                   | bounce            | 4 swings               | soon   | The nose dives when you brake and it takes longer to stop.
strut-top-mount  | strut-mount     | left front  | cracked rubber                  | wheel turned      | clunk at half lock     | soon   | Sensible to renew it with the strut because it has to come off in any case.
front-spring     | front-spring    | left front  | last coil snapped               | on ramp           | 60 mm missing          | unsafe | A broken end can cut into the tire without warning.
lower-arm        | lower-arm       | right front | rear bush torn                  | lever             | moves 7 mm             | now    | Makes the car dart to one side each time you touch the brake.
drop-link        | drop-link       | left rear   | boot split, dry                 | twisted           | no grease              | watch  | Quiet for the moment. Let us see it again in six months.
bar-bushes       | bar-bush        |             | squeaks over ramps              | sprayed with water | noise went away       | watch  | Only a comfort matter.
track-rod-end    | track-rod-end   | left front  | loose                           | rocked at 3 and 9 | 2 mm                   | unsafe | Please have this done before the weekend trip; you could lose the steering.
shaft-boot       | shaft-boot      | right front | torn open                       | on ramp           | grease on rim          | now    | Caught early: the joint itself is still quiet, so only the rubber is needed.
wheel-alignment  | wheels          |             | inside edges worn               | tread depth       | 2 mm in, 6 mm out      | soon   | Has to be set after the steering work or the next set of tires will go the same way.
engine-mount     | engine-mount    |             | sagging                         | load on brake     | lifts 40 mm            | soon   | The thump when you go from reverse to drive comes from here.
oil-pan-gasket   | oil-pan         |             | drips on the drive              | cardboard overnight | 9 drops              | soon   | You are losing about a cup a month.
headlamp         | headlamp        | left        | full of water                   | looked            | condensation           | now    | Would not pass inspection as it is, and the bulb keeps failing.
horn             | horn            | high tone   | silent                          | 12 V on terminals | no sound               | soon   | A working horn is required by law.
wiper-motor      | wiper-motor     |             | parks in mid screen             | tried             | every time             | soon   | The switch inside that brings the blades home is burnt.
pollen-filter    | pollen-filter   |             | black                           | pulled out        | overdue                | watch  | Windows will mist less.
battery          | battery         |             | fails load test                 | tester            | 310 of 640 A           | now    | It may well leave you stranded on the first frosty morning.
starter          | starter         |             | drags when hot                  | clamp meter       | 290 A, normal 160      | soon   | Draws nearly twice the current that it should.
ground-strap     | ground-point    | engine bay  | green with corrosion            | voltage drop      | 0.9 V                  | now    | Half the odd electrical faults on your list may come from this one strap.
rear-lamp        | rear-lamp       | right       | lens smashed                    | looked            | white light shows      | now    | Shows white light to the rear, which the police will stop you for.
blower-motor     | blower          |             | screeches on speed two          | listened          | worse when cold        | watch  | Dry bush in the motor. It will run a while yet.
code-read        | warning-lamp    |             | engine light on                 | reader            | 4 stored               | now    | We wrote down every code with its freeze frame before clearing them.
final-road-test  | noise           |             | clunk on take-off               | drive with owner  | repeatable             | soon   | We drive the same route with you at the end so that you can be sure it is gone.
`;

/** Forty lines all over the vehicle, each with a full sentence. */
export function heldOutForty(): Shared {
  const { shop, estimate } = heldOutCooling();
  return {
    ...demoDocuments(),
    estimate: estimateOf(FORTY, {
      id: 'ro-77204-a',
      number: '77204',
      createdAt: '2026-08-03T10:02:00Z',
      vehicle: estimate.vehicle,
      customer: { name: 'Marguerite Oyelaran' },
      concern: 'Bought it last week at a sale. Go over all of it and tell me what it needs.',
    }),
    shop,
  };
}
