import type { Mesh } from "./mesh";
import { cross, unit, type Vec3 } from "./vec";

const SIZE = 512;
const FAR = -1e9;
const TAPS = 12;
const BLOCK = 16;
const BLOCKS = SIZE / BLOCK;

/** Depths of a mesh as the light sees it, for shadows on the ground and of the hitter on itself. */
export class ShadowMap {
  private readonly depth = new Float32Array(SIZE * SIZE);
  private readonly right: Vec3;
  private readonly up: Vec3;
  private readonly perM: number;
  private readonly tapX = new Float32Array(TAPS);
  private readonly tapY = new Float32Array(TAPS);
  /** Greatest depth per block of texels and its neighbours, to skip what nothing can shade. */
  private readonly coarse = new Float32Array(BLOCKS * BLOCKS);
  private readonly px = new Float32Array(24000);
  private readonly py = new Float32Array(24000);
  private readonly pz = new Float32Array(24000);

  constructor(
    private readonly toward: Vec3,
    private readonly centre: Vec3,
    halfWidthM: number,
  ) {
    this.right = unit(cross([0, 1, 0], toward));
    this.up = cross(toward, this.right);
    this.perM = SIZE / (2 * halfWidthM);
    for (let i = 0; i < TAPS; i++) {
      const angle = i * 2.39996;
      const radius = Math.sqrt((i + 0.5) / TAPS);
      this.tapX[i] = Math.cos(angle) * radius;
      this.tapY[i] = Math.sin(angle) * radius;
    }
  }

  /** Draws a mesh's depths anew. */
  draw(mesh: Mesh): void {
    const { depth, px, py, pz } = this;
    depth.fill(FAR);
    this.coarse.fill(FAR);
    const p = mesh.position;
    const [r, u, l, c] = [this.right, this.up, this.toward, this.centre];
    for (let i = 0; i < mesh.vertices; i++) {
      const x = (p[3 * i] as number) - c[0];
      const y = (p[3 * i + 1] as number) - c[1];
      const z = (p[3 * i + 2] as number) - c[2];
      px[i] = (x * r[0] + y * r[1] + z * r[2]) * this.perM + SIZE / 2;
      py[i] = (x * u[0] + y * u[1] + z * u[2]) * this.perM + SIZE / 2;
      pz[i] = x * l[0] + y * l[1] + z * l[2];
    }
    for (let t = 0; t < mesh.triangles; t++) {
      const a = mesh.corner[3 * t] as number;
      const b = mesh.corner[3 * t + 1] as number;
      const d = mesh.corner[3 * t + 2] as number;
      const [ax, ay, bx, by, dx, dy] = [px[a] as number, py[a] as number, px[b] as number, py[b] as number, px[d] as number, py[d] as number];
      const area = (bx - ax) * (dy - ay) - (by - ay) * (dx - ax);
      if (area <= 1e-6) continue;
      const x0 = Math.max(0, Math.ceil(Math.min(ax, bx, dx) - 0.5));
      const x1 = Math.min(SIZE - 1, Math.floor(Math.max(ax, bx, dx) - 0.5));
      const y0 = Math.max(0, Math.ceil(Math.min(ay, by, dy) - 0.5));
      const y1 = Math.min(SIZE - 1, Math.floor(Math.max(ay, by, dy) - 0.5));
      for (let y = y0; y <= y1; y++) {
        for (let x = x0; x <= x1; x++) {
          const qx = x + 0.5;
          const qy = y + 0.5;
          const wa = (bx - qx) * (dy - qy) - (by - qy) * (dx - qx);
          const wb = (dx - qx) * (ay - qy) - (dy - qy) * (ax - qx);
          const wd = area - wa - wb;
          if (wa < 0 || wb < 0 || wd < 0) continue;
          const z = (wa * (pz[a] as number) + wb * (pz[b] as number) + wd * (pz[d] as number)) / area;
          const at = y * SIZE + x;
          if (z > (depth[at] as number)) depth[at] = z;
        }
      }
      this.markBlocks(x0, x1, y0, y1, Math.max(pz[a] as number, pz[b] as number, pz[d] as number));
    }
  }

  private markBlocks(x0: number, x1: number, y0: number, y1: number, z: number): void {
    const { coarse } = this;
    const [left, right] = [Math.max(0, (x0 / BLOCK - 1) | 0), Math.min(BLOCKS - 1, (x1 / BLOCK + 1) | 0)];
    const [top, bottom] = [Math.max(0, (y0 / BLOCK - 1) | 0), Math.min(BLOCKS - 1, (y1 / BLOCK + 1) | 0)];
    for (let y = top; y <= bottom; y++) {
      for (let x = left; x <= right; x++) if (z > (coarse[y * BLOCKS + x] as number)) coarse[y * BLOCKS + x] = z;
    }
  }

  /** Share of light that reaches a place (a radius of at most 16 texels), 0 to 1, over a soft disc of the given radius (metres) and with a margin against itself. */
  lit(x: number, y: number, z: number, radiusM: number, marginM: number, tapCount = TAPS): number {
    const { right, up, toward, centre, depth, tapX, tapY, perM } = this;
    const dx = x - centre[0];
    const dy = y - centre[1];
    const dz = z - centre[2];
    const sx = (dx * right[0] + dy * right[1] + dz * right[2]) * perM + SIZE / 2;
    const sy = (dx * up[0] + dy * up[1] + dz * up[2]) * perM + SIZE / 2;
    if (sx < 0 || sy < 0 || sx >= SIZE || sy >= SIZE) return 1;
    const limit = dx * toward[0] + dy * toward[1] + dz * toward[2] + marginM;
    if ((this.coarse[((sy / BLOCK) | 0) * BLOCKS + ((sx / BLOCK) | 0)] as number) <= limit) return 1;
    const spread = radiusM * perM;
    const step = TAPS / tapCount;
    let light = 0;
    for (let i = 0; i < TAPS; i += step) {
      const tx = (sx + (tapX[i] as number) * spread) | 0;
      const ty = (sy + (tapY[i] as number) * spread) | 0;
      if (tx < 0 || ty < 0 || tx >= SIZE || ty >= SIZE || (depth[ty * SIZE + tx] as number) <= limit) light++;
    }
    return light / tapCount;
  }
}
