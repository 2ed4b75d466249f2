import type { Camera } from "./camera";
import { BYTE_OF_LIGHT, LINEAR_OF_BYTE, toLinear, type Light } from "./light";
import type { Material } from "./look";
import type { Mesh } from "./mesh";
import type { Box, Raster } from "./raster";
import type { ShadowMap } from "./shadow";

/** Turns the triangles that a raster shows into light: once a pixel inside a surface, once per surface on its edges. */
export class FigurePainter {
  private readonly albedo: Float32Array;
  private readonly shine: Float32Array;
  private readonly out = new Float32Array(3);

  constructor(
    private readonly camera: Camera,
    private readonly light: Light,
    materials: readonly Material[],
    private readonly mesh: Mesh,
    private readonly raster: Raster,
    private readonly shadow: ShadowMap,
  ) {
    this.albedo = Float32Array.from(materials.flatMap(({ colour }) => [...colour].map(toLinear)));
    this.shine = Float32Array.from(materials, ({ shine }) => shine);
  }

  /** Paints the figure over an RGB picture. */
  paint(picture: Uint8Array, box: Box): void {
    const { raster, camera, out } = this;
    const { shown, wide } = raster;
    const encode = BYTE_OF_LIGHT;
    for (let y = box.top; y <= box.bottom; y++) {
      for (let x = box.left; x <= box.right; x++) {
        const at = 2 * y * wide + 2 * x;
        const a = shown[at] as number;
        const b = shown[at + 1] as number;
        const c = shown[at + wide] as number;
        const d = shown[at + wide + 1] as number;
        if ((a | b | c | d) === 0) continue;
        const place = 3 * (y * camera.widthPx + x);
        const surface = this.surfaceOf(a);
        if (surface === this.surfaceOf(b) && surface === this.surfaceOf(c) && surface === this.surfaceOf(d)) {
          this.shade(a - 1, 2 * x + 1, 2 * y + 1);
        } else {
          this.shadeEdge(picture, place, [a, b, c, d], 2 * x, 2 * y);
        }
        for (let i = 0; i < 3; i++) {
          const value = out[i] as number;
          picture[place + i] = encode[value >= 1 ? 4096 : (value * 4096) | 0] as number;
        }
      }
    }
  }

  /** What may be shaded as one: part and material; -1 for the background. */
  private surfaceOf(shown: number): number {
    return shown === 0 ? -1 : ((this.mesh.part[shown - 1] as number) << 8) | (this.mesh.material[shown - 1] as number);
  }

  /** A pixel of several surfaces: each shaded in the middle of its quarters and weighed by their number. */
  private shadeEdge(picture: Uint8Array, place: number, shown: readonly number[], qx: number, qy: number): void {
    const { out } = this;
    let [red, green, blue] = [0, 0, 0];
    let done = 0;
    for (let i = 0; i < 4; i++) {
      if (done & (1 << i)) continue;
      const id = shown[i] as number;
      const surface = this.surfaceOf(id);
      let [count, cx, cy] = [0, 0, 0];
      for (let j = i; j < 4; j++) {
        if (this.surfaceOf(shown[j] as number) !== surface) continue;
        done |= 1 << j;
        count++;
        cx += (j & 1) + 0.5;
        cy += (j >> 1) + 0.5;
      }
      if (id === 0) {
        for (let k = 0; k < 3; k++) out[k] = LINEAR_OF_BYTE[picture[place + k] as number] as number;
      } else {
        this.shade(id - 1, qx + cx / count, qy + cy / count);
      }
      red += 0.25 * count * (out[0] as number);
      green += 0.25 * count * (out[1] as number);
      blue += 0.25 * count * (out[2] as number);
    }
    out[0] = red;
    out[1] = green;
    out[2] = blue;
  }

  /** Light that leaves a triangle at a place of the picture (in quarter pixels) toward the camera, into `out`. */
  private shade(triangle: number, qx: number, qy: number): void {
    const { mesh, light, out } = this;
    const { sx, sy } = this.raster;
    const { corner, normal: n, position: p } = mesh;
    const a = corner[3 * triangle] as number;
    const b = corner[3 * triangle + 1] as number;
    const c = corner[3 * triangle + 2] as number;
    const ax = sx[a] as number;
    const ay = sy[a] as number;
    const bx = sx[b] as number;
    const by = sy[b] as number;
    const cx = sx[c] as number;
    const cy = sy[c] as number;
    const area = (bx - ax) * (cy - ay) - (by - ay) * (cx - ax);
    let wa = ((bx - qx) * (cy - qy) - (by - qy) * (cx - qx)) / area;
    let wb = ((cx - qx) * (ay - qy) - (cy - qy) * (ax - qx)) / area;
    wa = wa < 0 ? 0 : wa > 1 ? 1 : wa;
    wb = wb < 0 ? 0 : wb > 1 - wa ? 1 - wa : wb;
    const wc = 1 - wa - wb;
    const [ia, ib, ic] = [3 * a, 3 * b, 3 * c];
    let nx = wa * (n[ia] as number) + wb * (n[ib] as number) + wc * (n[ic] as number);
    let ny = wa * (n[ia + 1] as number) + wb * (n[ib + 1] as number) + wc * (n[ic + 1] as number);
    let nz = wa * (n[ia + 2] as number) + wb * (n[ib + 2] as number) + wc * (n[ic + 2] as number);
    const size = Math.sqrt(nx * nx + ny * ny + nz * nz) || 1;
    nx /= size;
    ny /= size;
    nz /= size;
    const x = wa * (p[ia] as number) + wb * (p[ib] as number) + wc * (p[ic] as number);
    const y = wa * (p[ia + 1] as number) + wb * (p[ib + 1] as number) + wc * (p[ic + 1] as number);
    const z = wa * (p[ia + 2] as number) + wb * (p[ib + 2] as number) + wc * (p[ic + 2] as number);
    const l = light.toward;
    const wrapped = Math.max(0, (nx * l[0] + ny * l[1] + nz * l[2] + 0.18) / 1.18);
    const reaches = wrapped > 0 ? this.shadow.lit(x + nx * 0.012, y + ny * 0.012, z + nz * 0.012, 0.03, 0.03, 12) : 0;
    const key = 1.12 * wrapped * (0.12 + 0.88 * reaches);
    const ex = this.camera.position[0] - x;
    const ey = this.camera.position[1] - y;
    const ez = this.camera.position[2] - z;
    const eye = Math.sqrt(ex * ex + ey * ey + ez * ez);
    const away = 1 - Math.max(0, (nx * ex + ny * ey + nz * ez) / eye);
    const rim = 0.05 * away * away * away;
    const low = Math.min(1, 0.72 + y * 0.6);
    const skyShare = 0.5 + 0.5 * ny;
    const material = mesh.material[triangle] as number;
    const shine = this.shine[material] as number;
    const gloss = shine > 0 ? shine * this.glossAt(nx, ny, nz, ex / eye, ey / eye, ez / eye) * (0.25 + 0.75 * reaches) : 0;
    for (let i = 0; i < 3; i++) {
      const sky = light.sky[i] as number;
      const ambient = (sky * skyShare + (light.ground[i] as number) * (1 - skyShare)) * low;
      out[i] = (this.albedo[3 * material + i] as number) * ((light.key[i] as number) * key + ambient) + gloss + rim * sky;
    }
  }

  private glossAt(nx: number, ny: number, nz: number, ex: number, ey: number, ez: number): number {
    const l = this.light.toward;
    const [hx, hy, hz] = [l[0] + ex, l[1] + ey, l[2] + ez];
    const half = Math.max(0, (nx * hx + ny * hy + nz * hz) / Math.sqrt(hx * hx + hy * hy + hz * hz));
    return half ** 40 * 0.5 + half ** 8 * 0.08;
  }
}
