/** A plan in which every field of the schema is given, once at least. All figures invented. */
export function fullPlan() {
  const described = { name: 'A name', notes: 'Invented.' };
  const carried = { ...described, mass: '100 g', volume: '0.1 L', size: '120 mm', tethers: 1, onHand: 2 };
  const access = { depth: '20 mm', clearDiameter: '30 mm', swingDeg: 60, handleRadius: '300 mm', protrusion: '4 mm' };
  return {
    task: { id: 'T-1', name: 'Change a part', site: 'A mast', about: 'Invented.', crew: 'Lead and Base' },
    catalog: {
      fasteners: [
        {
          ...carried,
          id: 'F-1',
          thread: 'M10x1.25',
          head: { form: 'hex', acrossFlats: '16 mm' },
          strength: '8.8',
          locking: 'ISO 2320',
          threadRun: '12 mm',
        },
        { id: 'F-2', thread: 'M6', head: { form: 'hexalobular', acrossFlats: 'T30' }, strength: { yieldMPa: 640 } },
      ],
      sockets: [
        {
          ...carried,
          id: 'S-16',
          drive: '10 mm',
          opening: { form: 'hex6', size: '16 mm' },
          length: '30 mm',
          innerDepth: '15 mm',
          outsideDiameter: '22 mm',
          ratedTorque: '100 N·m',
        },
      ],
      extensions: [
        {
          ...carried,
          id: 'X-1',
          kind: 'universal',
          driveIn: '10 mm',
          driveOut: '3/8 in',
          length: '60 mm',
          outsideDiameter: '18 mm',
          ratedTorque: '80 N·m',
        },
      ],
      drivers: [{ ...carried, id: 'R-1', drive: '10 mm', max: '100 N·m', lever: '200 mm', stepDeg: 5 }],
      torqueTools: [
        {
          ...carried,
          id: 'TT-1',
          drive: '10 mm',
          min: '10 N·m',
          max: '60 N·m',
          increment: '0.5 N·m',
          accuracyOfReading: 0.04,
          lever: '300 mm',
          stepDeg: 6,
          loosens: true,
        },
        {
          ...carried,
          id: 'TT-2',
          drive: '10 mm',
          min: '10 N·m',
          max: '60 N·m',
          settings: ['20 N·m', '40 N·m'],
          accuracyOfReading: 0.06,
        },
      ],
      carryGear: [{ ...carried, id: 'C-1', consumed: true }],
      bags: [
        {
          ...described,
          id: 'B-1',
          role: 'Lead',
          mass: '500 g',
          massMax: '8 kg',
          volumeMax: '20 L',
          itemsMax: 30,
          sizeMax: '500 mm',
          tetherPoints: 8,
        },
      ],
    },
    places: [{ id: 'locker', name: 'Locker', final: true }],
    outings: [{ ...described, id: 'O-1', roles: ['Lead', 'Base'], bags: ['B-1'], minutesMax: 90 }],
    steps: [
      {
        ...described,
        id: 'fit',
        outing: 'O-1',
        role: 'Lead',
        slot: 'together',
        action: 'tighten',
        fastener: 'F-1',
        count: 4,
        callout: { min: '30 N·m', max: '40 N·m' },
        calloutSource: 'Invented.',
        running: { min: '1 N·m', max: '3 N·m' },
        runningIncluded: false,
        demand: '50 N·m',
        access,
        hold: { fastener: 'F-1', access },
        gear: [{ id: 'C-1', quantity: 1 }],
        moves: [{ id: 'C-1', quantity: 1, from: 'bag', to: 'locker' }],
        minutes: 12,
        contingency: true,
        watchOuts: ['Sharp edge.'],
      },
    ],
    rangeShareMin: 0.2,
  };
}
