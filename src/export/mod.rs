//! One file format each; exporters know only drawings, meshes and tables.
