import { across, add, along, cross, scale, sub, unit, type Vec3 } from "./vec";

/** One ring of a tube: its middle and two half axes (with their lengths). */
export interface Ring {
  readonly centre: Vec3;
  readonly u: Vec3;
  readonly v: Vec3;
  /** Exponent of the outline: 2 = ellipse, more = squarer. */
  readonly square?: number;
}

/** Triangles of one frame in swing coordinates, refilled frame by frame without new memory. `part` marks what may blend smoothly. */
export class Mesh {
  readonly position = new Float32Array(3 * 24000);
  readonly normal = new Float32Array(3 * 24000);
  readonly corner = new Int32Array(3 * 48000);
  readonly material = new Uint8Array(48000);
  readonly part = new Uint8Array(48000);
  vertices = 0;
  triangles = 0;
  private partNow = 0;

  /** @param detail share of the segments that are asked for, for small pictures */
  constructor(private readonly detail = 1) {}

  private segmentsOf(wanted: number): number {
    return Math.max(8, Math.round(wanted * this.detail));
  }

  reset(): void {
    this.vertices = 0;
    this.triangles = 0;
    this.partNow = 0;
  }

  /** Starts a new part: edges between parts are smoothed in the picture. */
  begin(): void {
    this.partNow = (this.partNow + 1) & 255;
  }

  vertex(p: Vec3): number {
    const at = 3 * this.vertices;
    this.position[at] = p[0];
    this.position[at + 1] = p[1];
    this.position[at + 2] = p[2];
    return this.vertices++;
  }

  triangle(a: number, b: number, c: number, material: number): void {
    const at = 3 * this.triangles;
    this.corner[at] = a;
    this.corner[at + 1] = b;
    this.corner[at + 2] = c;
    this.material[this.triangles] = material;
    this.part[this.triangles++] = this.partNow;
  }

  /** Joins rings of points to a tube; `materials[i]` covers the stretch from ring i to ring i + 1, the last one repeated. */
  tube(rings: readonly Ring[], materials: readonly number[], wantedSegments: number): void {
    const segments = this.segmentsOf(wantedSegments);
    let before = -1;
    rings.forEach((ring, index) => {
      const start = this.vertices;
      for (let k = 0; k < segments; k++) {
        const angle = (2 * Math.PI * k) / segments;
        const power = 2 / (ring.square ?? 2);
        const c = Math.cos(angle);
        const s = Math.sin(angle);
        const x = Math.sign(c) * Math.abs(c) ** power;
        const y = Math.sign(s) * Math.abs(s) ** power;
        this.vertex(along(along(ring.centre, ring.u, x), ring.v, y));
      }
      if (before >= 0) {
        const material = materials[Math.min(index - 1, materials.length - 1)] ?? 0;
        for (let k = 0; k < segments; k++) {
          const next = (k + 1) % segments;
          this.triangle(before + k, before + next, start + next, material);
          this.triangle(before + k, start + next, start + k, material);
        }
      }
      before = start;
    });
  }

  /** A closed surface around a centre with three half axes; `floor` lets the lower rim rise or fall (radians from the pole) by azimuth. */
  ellipsoid(centre: Vec3, a: Vec3, pole: Vec3, b: Vec3, material: number, wantedSegments = 16, floor?: (azimuth: number) => number): void {
    const segments = this.segmentsOf(wantedSegments);
    const rows = Math.max(6, Math.round(segments * 0.6));
    let before = -1;
    for (let row = 0; row <= rows; row++) {
      const start = this.vertices;
      for (let k = 0; k < segments; k++) {
        const azimuth = (2 * Math.PI * k) / segments;
        const polar = ((floor?.(azimuth) ?? Math.PI) * row) / rows;
        const ringSize = Math.sin(polar) + 1e-4;
        const p = along(along(along(centre, pole, Math.cos(polar)), a, ringSize * Math.cos(azimuth)), b, ringSize * Math.sin(azimuth));
        this.vertex(p);
      }
      if (before >= 0) {
        for (let k = 0; k < segments; k++) {
          const next = (k + 1) % segments;
          this.triangle(before + k, start + next, before + next, material);
          this.triangle(before + k, start + k, start + next, material);
        }
      }
      before = start;
    }
  }

  /** Turns the faces of every part outward: a part with negative volume is inside out. */
  private orient(): void {
    const { position, corner, part } = this;
    let first = 0;
    while (first < this.triangles) {
      const origin = 3 * (corner[3 * first] as number);
      const [ox, oy, oz] = [position[origin] as number, position[origin + 1] as number, position[origin + 2] as number];
      let volume = 0;
      let end = first;
      while (end < this.triangles && part[end] === part[first]) {
        const [a, b, c] = [3 * (corner[3 * end] as number), 3 * (corner[3 * end + 1] as number), 3 * (corner[3 * end + 2] as number)];
        const [ax, ay, az] = [(position[a] as number) - ox, (position[a + 1] as number) - oy, (position[a + 2] as number) - oz];
        const [bx, by, bz] = [(position[b] as number) - ox, (position[b + 1] as number) - oy, (position[b + 2] as number) - oz];
        const [cx, cy, cz] = [(position[c] as number) - ox, (position[c + 1] as number) - oy, (position[c + 2] as number) - oz];
        volume += ax * (by * cz - bz * cy) + ay * (bz * cx - bx * cz) + az * (bx * cy - by * cx);
        end++;
      }
      for (let t = first; volume < 0 && t < end; t++) {
        const kept = corner[3 * t + 1] as number;
        corner[3 * t + 1] = corner[3 * t + 2] as number;
        corner[3 * t + 2] = kept;
      }
      first = end;
    }
  }

  /** Faces outward, and vertex normals as the mean of the faces around each vertex. */
  computeNormals(): void {
    this.orient();
    const { position, normal, corner } = this;
    normal.fill(0, 0, 3 * this.vertices);
    for (let t = 0; t < 3 * this.triangles; t += 3) {
      const a = 3 * (corner[t] as number);
      const b = 3 * (corner[t + 1] as number);
      const c = 3 * (corner[t + 2] as number);
      const ux = (position[b] as number) - (position[a] as number);
      const uy = (position[b + 1] as number) - (position[a + 1] as number);
      const uz = (position[b + 2] as number) - (position[a + 2] as number);
      const vx = (position[c] as number) - (position[a] as number);
      const vy = (position[c + 1] as number) - (position[a + 1] as number);
      const vz = (position[c + 2] as number) - (position[a + 2] as number);
      const nx = uy * vz - uz * vy;
      const ny = uz * vx - ux * vz;
      const nz = ux * vy - uy * vx;
      for (const i of [a, b, c]) {
        normal[i] = (normal[i] as number) + nx;
        normal[i + 1] = (normal[i + 1] as number) + ny;
        normal[i + 2] = (normal[i + 2] as number) + nz;
      }
    }
    for (let i = 0; i < 3 * this.vertices; i += 3) {
      const size = Math.hypot(normal[i] as number, normal[i + 1] as number, normal[i + 2] as number) || 1;
      normal[i] = (normal[i] as number) / size;
      normal[i + 1] = (normal[i + 1] as number) / size;
      normal[i + 2] = (normal[i + 2] as number) / size;
    }
  }
}

/** A station of a limb: where, how thick, and optionally thicker along `hint`. */
export interface Station {
  readonly at: Vec3;
  readonly radius: number;
}

/** Rings along a path of stations, each across the path's mean direction there, with rounded ends where asked. */
export function ringsAlong(stations: readonly Station[], hint: Vec3, rounded: { start: boolean; end: boolean }): Ring[] {
  const place = (index: number): Vec3 => stations[Math.max(0, Math.min(stations.length - 1, index))]?.at ?? [0, 0, 0];
  const body = stations.map((station, index) => {
    const before = sub(place(index), place(index - 1));
    const after = sub(place(index + 1), place(index));
    const direction = unit(add(unit(before, [0, 0, 0]), unit(after, [0, 0, 0])), unit(after, unit(before)));
    const u = unit(across(hint, direction), unit(across([0.31, 0.2, 0.93], direction)));
    const v = cross(direction, u);
    return { centre: station.at, u: scale(u, station.radius), v: scale(v, station.radius), direction, radius: station.radius };
  });
  const cap = (ring: (typeof body)[number], sign: number): Ring[] =>
    [0.5, 0.85, 0.999].map((share) => {
      const shrink = Math.sqrt(1 - share * share);
      return { centre: along(ring.centre, ring.direction, sign * share * ring.radius), u: scale(ring.u, shrink), v: scale(ring.v, shrink) };
    });
  const first = body[0];
  const last = body.at(-1);
  return [
    ...(rounded.start && first ? cap(first, -1).reverse() : []),
    ...body,
    ...(rounded.end && last ? cap(last, 1) : []),
  ];
}
