import type { Camera } from "./camera";
import type { Mesh } from "./mesh";

/** A rectangle of whole pixels, its ends included; empty when right < left. */
export interface Box {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/** Which triangle each quarter of a pixel shows: a depth buffer at twice the picture's width and height. */
export class Raster {
  readonly wide: number;
  readonly high: number;
  /** Triangle + 1 per quarter pixel, 0 = background. */
  readonly shown: Int32Array;
  private readonly near: Float32Array;
  /** Vertices in quarter pixels and their inverse depth. */
  readonly sx = new Float32Array(24000);
  readonly sy = new Float32Array(24000);
  readonly inverse = new Float32Array(24000);
  private drawn: Box = { left: 0, top: 0, right: -1, bottom: -1 };

  constructor(private readonly camera: Camera) {
    this.wide = camera.widthPx * 2;
    this.high = camera.heightPx * 2;
    this.shown = new Int32Array(this.wide * this.high);
    this.near = new Float32Array(this.wide * this.high);
  }

  /** Draws a mesh and gives the pixels it may touch. */
  draw(mesh: Mesh): Box {
    const { wide, high, shown, near, sx, sy, inverse, camera } = this;
    for (let y = 2 * this.drawn.top; y <= 2 * this.drawn.bottom + 1; y++) {
      const row = y * wide;
      shown.fill(0, row + 2 * this.drawn.left, row + 2 * this.drawn.right + 2);
      near.fill(0, row + 2 * this.drawn.left, row + 2 * this.drawn.right + 2);
    }
    const { position: p } = mesh;
    const { position: o, into: f, right: r, mirror } = camera;
    let [minX, minY, maxX, maxY] = [wide, high, -1, -1];
    for (let i = 0; i < mesh.vertices; i++) {
      const x = (p[3 * i] as number) - o[0];
      const y = (p[3 * i + 1] as number) - o[1];
      const z = (p[3 * i + 2] as number) - o[2];
      const depth = Math.max(0.05, x * f[0] + z * f[2]);
      const k = (2 * camera.focalPx) / depth;
      const px = 2 * camera.centreX + mirror * k * (x * r[0] + z * r[2]);
      const py = 2 * camera.centreY - k * y;
      sx[i] = px;
      sy[i] = py;
      inverse[i] = 1 / depth;
      if (px < minX) minX = px;
      if (px > maxX) maxX = px;
      if (py < minY) minY = py;
      if (py > maxY) maxY = py;
    }
    for (let t = 0; t < mesh.triangles; t++) {
      const a = mesh.corner[3 * t] as number;
      const b = mesh.corner[3 * t + 1] as number;
      const c = mesh.corner[3 * t + 2] as number;
      const ax = sx[a] as number;
      const ay = sy[a] as number;
      const bx = sx[b] as number;
      const by = sy[b] as number;
      const cx = sx[c] as number;
      const cy = sy[c] as number;
      const area = ((bx - ax) * (cy - ay) - (by - ay) * (cx - ax)) * -mirror;
      if (area <= 1e-9) continue;
      const y0 = Math.max(0, Math.ceil(Math.min(ay, by, cy) - 0.5));
      const y1 = Math.min(high - 1, Math.floor(Math.max(ay, by, cy) - 0.5));
      const x0 = Math.max(0, Math.ceil(Math.min(ax, bx, cx) - 0.5));
      const x1 = Math.min(wide - 1, Math.floor(Math.max(ax, bx, cx) - 0.5));
      if (x1 < x0 || y1 < y0) continue;
      const k = -mirror / area;
      const za = inverse[a] as number;
      const zb = inverse[b] as number;
      const zc = inverse[c] as number;
      const stepA = (by - cy) * k;
      const stepB = (cy - ay) * k;
      const stepZ = stepA * za + stepB * zb - (stepA + stepB) * zc;
      for (let y = y0; y <= y1; y++) {
        const qx = x0 + 0.5;
        const qy = y + 0.5;
        let wa = ((bx - qx) * (cy - qy) - (by - qy) * (cx - qx)) * k;
        let wb = ((cx - qx) * (ay - qy) - (cy - qy) * (ax - qx)) * k;
        let z = wa * za + wb * zb + (1 - wa - wb) * zc;
        let at = y * wide + x0;
        for (let x = x0; x <= x1; x++) {
          if (wa >= 0 && wb >= 0 && wa + wb <= 1.0000001 && z > (near[at] as number)) {
            near[at] = z;
            shown[at] = t + 1;
          }
          wa += stepA;
          wb += stepB;
          z += stepZ;
          at++;
        }
      }
    }
    this.drawn = {
      left: Math.max(0, Math.floor(minX / 2)),
      top: Math.max(0, Math.floor(minY / 2)),
      right: Math.min(camera.widthPx - 1, Math.floor(maxX / 2)),
      bottom: Math.min(camera.heightPx - 1, Math.floor(maxY / 2)),
    };
    return this.drawn;
  }
}
