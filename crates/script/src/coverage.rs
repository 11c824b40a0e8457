//! Which lines of a script were run: for trials, which should run all of them.

use std::cell::RefCell;
use std::collections::BTreeSet;
use std::rc::Rc;

use rhai::debugger::DebuggerCommand;
use rhai::{AST, ASTNode, Engine, Stmt};

/// The lines that were run since they were last asked for.
pub(crate) type Lines = Rc<RefCell<BTreeSet<usize>>>;

/// Lines of a script on which a statement begins, from 1.
pub(crate) fn of(ast: &AST) -> BTreeSet<usize> {
    let mut lines = BTreeSet::new();
    ast.walk(&mut |path: &[ASTNode]| {
        lines.extend(path.last().and_then(line));
        true
    });
    lines
}

/// The line on which a statement that does something begins.
fn line(node: &ASTNode) -> Option<usize> {
    match node {
        ASTNode::Stmt(Stmt::Noop(_) | Stmt::Block(_)) => None,
        ASTNode::Stmt(statement) => statement.position().line(),
        _ => None,
    }
}

/// Has an engine note the lines that it runs. It then takes several times as long.
#[expect(deprecated, reason = "the interface may change with the library, whose version is pinned")]
pub(crate) fn note(engine: &mut Engine) -> Lines {
    let lines = Lines::default();
    let seen = Rc::clone(&lines);
    engine.register_debugger(
        |_, debugger| debugger,
        move |_, _, node, _, _| {
            // A statement that is a bare expression is announced as that expression.
            let expression = matches!(node, ASTNode::Expr(_)).then(|| node.position().line());
            seen.borrow_mut().extend(line(&node).or(expression.flatten()));
            Ok(DebuggerCommand::StepInto)
        },
    );
    lines
}
