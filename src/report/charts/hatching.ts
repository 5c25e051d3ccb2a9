import { element } from './svg.js';

/** Two hatchings, rising and falling, which tell fills apart without colour: `<name>-up` and `<name>-down`. */
export function hatching(name: string): string[] {
  return [
    hatch(name, 'up', 'M-1,7 L7,-1 M5,13 L13,5 M-1,13 L13,-1'),
    hatch(name, 'down', 'M-1,-1 L13,13 M-1,5 L7,13 M5,-1 L13,7'),
  ];
}

function hatch(name: string, way: 'up' | 'down', d: string): string {
  return element(
    'pattern',
    { id: `${name}-${way}`, width: 12, height: 12, patternUnits: 'userSpaceOnUse' },
    element('path', { d, class: 'hatch' }),
  );
}
