"use strict";
// Turns the part of a client sheet by mouse, touch and keys. No library, no network; where WebGL is
// missing the block stays hidden and the still pictures have to do.
(function () {
  var block = document.getElementById("turnable");
  var data = JSON.parse(document.getElementById("part-data").textContent);
  var canvas = block.querySelector("canvas");
  var gl = canvas.getContext("webgl", { antialias: true, preserveDrawingBuffer: true });
  if (!gl || !gl.getExtension("OES_element_index_uint")) { return; }

  var VERTEX = "attribute vec3 place; attribute vec3 outward; attribute float kind;" +
    "uniform mat4 sight; uniform mat3 turn; uniform vec3 colours[6];" +
    "varying vec3 normal; varying vec3 shade;" +
    "void main() { gl_Position = sight * vec4(place, 1.0); normal = turn * outward;" +
    " shade = colours[0];" +
    " for (int k = 1; k < 6; k++) { if (kind > float(k) - 0.5) { shade = colours[k]; } } }";
  var FRAGMENT = "precision mediump float; varying vec3 normal; varying vec3 shade;" +
    "void main() { vec3 n = normalize(normal); if (!gl_FrontFacing) { n = -n; }" +
    " float light = 0.42 + 0.58 * max(dot(n, normalize(vec3(-0.29, 0.48, 0.828))), 0.0);" +
    " gl_FragColor = vec4(gl_FrontFacing ? shade * light : vec3(0.35) * light, 1.0); }";

  function compiled(type, source) {
    var shader = gl.createShader(type);
    gl.shaderSource(shader, source);
    gl.compileShader(shader);
    return shader;
  }
  var program = gl.createProgram();
  gl.attachShader(program, compiled(gl.VERTEX_SHADER, VERTEX));
  gl.attachShader(program, compiled(gl.FRAGMENT_SHADER, FRAGMENT));
  gl.linkProgram(program);
  if (!gl.getProgramParameter(program, gl.LINK_STATUS)) { return; }
  gl.useProgram(program);

  function bytes(text) {
    var raw = atob(text), array = new Uint8Array(raw.length);
    for (var k = 0; k < raw.length; k++) { array[k] = raw.charCodeAt(k); }
    return array.buffer;
  }
  function attribute(name, array, size, type) {
    gl.bindBuffer(gl.ARRAY_BUFFER, gl.createBuffer());
    gl.bufferData(gl.ARRAY_BUFFER, array, gl.STATIC_DRAW);
    var where = gl.getAttribLocation(program, name);
    gl.enableVertexAttribArray(where);
    gl.vertexAttribPointer(where, size, type, false, 0, 0);
  }
  // Whole numbers of a few units each; as floats, since rows of three bytes may not be aligned.
  var places = new Float32Array(new Int16Array(bytes(data.positions)));
  var radius = 0;
  for (var p = 0; p < places.length; p += 3) {
    for (var axis = 0; axis < 3; axis++) { places[p + axis] *= data.unit_mm; }
    radius = Math.max(radius, Math.hypot(places[p], places[p + 1], places[p + 2]));
  }
  attribute("place", places, 3, gl.FLOAT);
  attribute("outward", new Float32Array(new Int8Array(bytes(data.normals))), 3, gl.FLOAT);
  attribute("kind", new Float32Array(new Uint8Array(bytes(data.kinds))), 1, gl.FLOAT);
  var triangles = new Uint32Array(bytes(data.triangles));
  gl.bindBuffer(gl.ELEMENT_ARRAY_BUFFER, gl.createBuffer());
  gl.bufferData(gl.ELEMENT_ARRAY_BUFFER, triangles, gl.STATIC_DRAW);
  gl.enable(gl.DEPTH_TEST);

  var START = { round: data.round_deg, over: data.over_deg, near: 1 };
  var eye = { round: START.round, over: START.over, near: START.near };
  var asked = false;

  function draw() {
    asked = false;
    var scale = Math.min(window.devicePixelRatio || 1, 2);
    var width = Math.max(1, Math.round(canvas.clientWidth * scale));
    var height = Math.max(1, Math.round(canvas.clientHeight * scale));
    if (canvas.width !== width || canvas.height !== height) {
      canvas.width = width;
      canvas.height = height;
    }
    var a = eye.round * Math.PI / 180, e = eye.over * Math.PI / 180;
    var ca = Math.cos(a), sa = Math.sin(a), ce = Math.cos(e), se = Math.sin(e);
    // Rows: to the right, upward, towards the eye, which stands at azimuth a and elevation e.
    var right = [-sa, ca, 0], up = [-se * ca, -se * sa, ce], back = [ce * ca, ce * sa, se];
    var away = 4 * radius / eye.near, lens = 3.4;
    var sx = lens * Math.min(1, height / width), sy = lens * Math.min(1, width / height);
    var first = Math.max(away - 1.5 * radius, 0.05 * radius), last = away + 1.5 * radius;
    var zz = -(last + first) / (last - first), zw = -2 * last * first / (last - first);
    var sight = new Float32Array(16);
    for (var k = 0; k < 3; k++) {
      sight[4 * k] = sx * right[k];
      sight[4 * k + 1] = sy * up[k];
      sight[4 * k + 2] = zz * back[k];
      sight[4 * k + 3] = -back[k];
    }
    sight[14] = -zz * away + zw;
    sight[15] = away;
    var turn = new Float32Array(9);
    for (var j = 0; j < 3; j++) {
      turn[3 * j] = right[j];
      turn[3 * j + 1] = up[j];
      turn[3 * j + 2] = back[j];
    }
    gl.viewport(0, 0, width, height);
    gl.clearColor(0, 0, 0, 0);
    gl.clear(gl.COLOR_BUFFER_BIT | gl.DEPTH_BUFFER_BIT);
    gl.uniformMatrix4fv(gl.getUniformLocation(program, "sight"), false, sight);
    gl.uniformMatrix3fv(gl.getUniformLocation(program, "turn"), false, turn);
    var colours = touch && touch.checked ? data.touch_colours : data.class_colours;
    gl.uniform3fv(gl.getUniformLocation(program, "colours"), new Float32Array(colours));
    gl.drawElements(gl.TRIANGLES, triangles.length, gl.UNSIGNED_INT, 0);
    canvas.setAttribute("data-drawn", String(1 + Number(canvas.getAttribute("data-drawn") || 0)));
  }
  function redraw() {
    if (!asked) {
      asked = true;
      window.requestAnimationFrame(draw);
    }
  }
  function turnBy(round, over) {
    eye.round = (eye.round + round) % 360;
    eye.over = Math.max(-90, Math.min(90, eye.over + over));
    redraw();
  }
  function comeNearer(factor) {
    eye.near = Math.max(0.5, Math.min(6, eye.near * factor));
    redraw();
  }
  function startAgain() {
    eye = { round: START.round, over: START.over, near: START.near };
    redraw();
  }

  var pointers = {};
  function held() { return Object.keys(pointers).map(function (id) { return pointers[id]; }); }
  canvas.addEventListener("pointerdown", function (event) {
    pointers[event.pointerId] = { x: event.clientX, y: event.clientY };
    canvas.setPointerCapture(event.pointerId);
    canvas.focus({ preventScroll: true });
    event.preventDefault();
  });
  canvas.addEventListener("pointermove", function (event) {
    var before = pointers[event.pointerId];
    if (!before) { return; }
    var now = { x: event.clientX, y: event.clientY }, all = held();
    if (all.length === 1) {
      turnBy(-0.5 * (now.x - before.x), 0.5 * (now.y - before.y));
    } else if (all.length === 2) {
      var other = all[0] === before ? all[1] : all[0];
      var apart = Math.hypot(before.x - other.x, before.y - other.y);
      comeNearer(Math.hypot(now.x - other.x, now.y - other.y) / Math.max(apart, 1));
    }
    pointers[event.pointerId] = now;
  });
  function release(event) { delete pointers[event.pointerId]; }
  canvas.addEventListener("pointerup", release);
  canvas.addEventListener("pointercancel", release);
  canvas.addEventListener("wheel", function (event) {
    if (document.activeElement !== canvas) { return; }  // the page scrolls on
    comeNearer(Math.exp(-0.0015 * event.deltaY));
    event.preventDefault();
  }, { passive: false });

  var KEYS = {
    ArrowLeft: function () { turnBy(-10, 0); }, ArrowRight: function () { turnBy(10, 0); },
    ArrowUp: function () { turnBy(0, 10); }, ArrowDown: function () { turnBy(0, -10); },
    "+": function () { comeNearer(1.2); }, "-": function () { comeNearer(1 / 1.2); },
    Home: startAgain
  };
  canvas.addEventListener("keydown", function (event) {
    if (KEYS[event.key] && !event.ctrlKey && !event.metaKey && !event.altKey) {
      KEYS[event.key]();
      event.preventDefault();
    }
  });
  Array.prototype.forEach.call(block.querySelectorAll("button"), function (button) {
    button.addEventListener("click", function () { KEYS[button.value](); });
  });
  var touch = block.querySelector("input");
  touch.addEventListener("change", redraw);
  window.addEventListener("resize", redraw);
  canvas.addEventListener("webglcontextlost", function () { block.hidden = true; });

  block.hidden = false;
  document.getElementById("stills-only").hidden = true;
  draw();
}());
