//! Rebuilds the crate when a built-in rule changes: the rules are embedded in it.

fn main() {
    #[expect(clippy::print_stdout, reason = "this is how a build script speaks to cargo")]
    {
        println!("cargo::rerun-if-changed=../../rules");
        println!("cargo::rerun-if-changed=../../specs");
    }
}
