// The part's surface as it is coloured: bands, lines between them, hatching, a cut.
import * as THREE from "three";
import type { Scale } from "./scale";

const vertexShader = /* glsl */ `
in vec3 rest;
in float value;
in float chosen;
out vec3 vNormal;
out vec3 vRest;
out vec3 vView;
out float vValue;
flat out float vName;
flat out float vChosen;
void main() {
  vec4 seen = modelViewMatrix * vec4(position, 1.0);
  vNormal = normalMatrix * normal;
  vRest = rest;
  vView = seen.xyz;
  vValue = value;
  vName = value;
  vChosen = chosen;
  gl_Position = projectionMatrix * seen;
}`;

const fragmentShader = /* glsl */ `
precision highp float;
in vec3 vNormal;
in vec3 vRest;
in vec3 vView;
in float vValue;
flat in float vName;
flat in float vChosen;
uniform sampler2D colours;
uniform float count;
uniform float low;
uniform float high;
uniform float hatchBelow;
uniform bool named;
uniform vec4 cut;
uniform bool cutting;
uniform float lift;
out vec4 colour;
void main() {
  if (cutting && dot(cut.xyz, vRest) > cut.w) discard;
  // Clamped here: clamped before interpolation, the lines between bands would move.
  float place = (vValue - low) / (high - low) * count;
  float band = named ? floor(vName - low + 0.5) : clamp(floor(place), 0.0, count - 1.0);
  vec3 base = texture(colours, vec2((band + 0.5) / count, 0.5)).rgb;
  bool nothing = isnan(vValue);
  if (nothing) base = vec3(0.6);
  if (!named && !nothing) {
    float line = abs(place - floor(place + 0.5)) / max(fwidth(place), 1e-6);
    if (place > 0.5 && place < count - 0.5) base *= mix(0.72, 1.0, smoothstep(0.4, 1.3, line));
    if (vValue < hatchBelow) base *= mod(gl_FragCoord.x + gl_FragCoord.y, 9.0) < 1.5 ? 0.72 : 1.0;
  }
  vec3 n = normalize(vNormal);
  vec3 eye = normalize(-vView);
  if (dot(n, eye) < 0.0) n = -n;
  float facing = dot(n, eye);
  float above = max(dot(n, normalize(vec3(0.35, 0.8, 0.5))), 0.0);
  float light = mix(0.52 + 0.34 * facing + 0.2 * above, 1.0, lift);
  colour = vec4(base * light, 1.0);
  if (vChosen > 0.5) colour.rgb = mix(colour.rgb, vec3(0.07, 0.33, 0.5), 0.8);
  else if (vChosen > 0.2) colour.rgb = mix(colour.rgb, vec3(0.07, 0.33, 0.5), 0.3);
}`;

export type Paint = THREE.ShaderMaterial;

/** @param lift  1: no shading at all, for the flat face of a cut. */
export function makePaint(lift = 0): Paint {
  return new THREE.ShaderMaterial({
    glslVersion: THREE.GLSL3,
    vertexShader,
    fragmentShader,
    side: THREE.DoubleSide,
    uniforms: {
      colours: { value: null },
      count: { value: 1 },
      low: { value: 0 },
      high: { value: 1 },
      hatchBelow: { value: -1e9 },
      named: { value: false },
      cut: { value: new THREE.Vector4() },
      cutting: { value: false },
      lift: { value: lift },
    },
    polygonOffset: true,
    polygonOffsetFactor: 1,
    polygonOffsetUnits: 1,
  });
}

export function setScale(paint: Paint, scale: Scale): void {
  const bytes = new Uint8Array(4 * scale.colours.length);
  scale.colours.forEach((text, i) => {
    for (let c = 0; c < 3; c++) bytes[4 * i + c] = parseInt(text.slice(1 + 2 * c, 3 + 2 * c), 16);
    bytes[4 * i + 3] = 255;
  });
  const texture = new THREE.DataTexture(bytes, scale.colours.length, 1);
  texture.needsUpdate = true;
  paint.uniforms.colours.value?.dispose();
  paint.uniforms.colours.value = texture;
  paint.uniforms.count.value = scale.colours.length;
  paint.uniforms.low.value = scale.low;
  paint.uniforms.high.value = scale.high;
  paint.uniforms.hatchBelow.value = scale.hatchBelow ?? -1e9;
  paint.uniforms.named.value = scale.names !== undefined;
}
